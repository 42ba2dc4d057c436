use fustian::Compiled;
use fustian::preview::Preview;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// What is shown now, for all that ask and wait.
pub struct Hub {
    now: Mutex<Arc<Preview>>,
    changed: Condvar,
}

impl Hub {
    pub fn new(first: Preview) -> Self {
        Hub { now: Mutex::new(Arc::new(first)), changed: Condvar::new() }
    }

    /// What is shown now.
    pub fn now(&self) -> Arc<Preview> {
        self.lock().clone()
    }

    /// Takes the next text, and wakes all that wait for it.
    pub fn put(&self, compiled: Compiled) {
        let now = self.now();
        if let Some(next) = now.next(compiled) {
            *self.lock() = Arc::new(next);
            self.changed.notify_all();
        }
    }

    /// Waits for another text than that one, but no longer than so.
    pub fn wait(&self, serial: u64, patience: Duration) -> u64 {
        let is_same = |now: &mut Arc<Preview>| now.serial() == serial;
        let waited = self.changed.wait_timeout_while(self.lock(), patience, is_same);
        match waited {
            Ok((now, _)) => now.serial(),
            Err(_) => serial,
        }
    }

    /// Whoever held it did nothing but put one whole thing in another's place.
    fn lock(&self) -> MutexGuard<'_, Arc<Preview>> {
        self.now.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
