//! What makers do, topic by topic. One binary, so that linking stays quick.

mod chain;
mod variations;
