//! All integration tests in one binary; one file a topic.

mod geometry;
