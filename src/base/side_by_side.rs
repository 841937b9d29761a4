//! Doing the same to several things at once, with the results in the order of the things.

/// What `act` makes of each item; the items are handled side by side, one thread each, so keep them few and large.
pub fn side_by_side<T: Sync, R: Send>(items: &[T], act: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let act = &act;
    std::thread::scope(|scope| {
        let running: Vec<_> = items.iter().map(|item| scope.spawn(move || act(item))).collect();
        // A panic is a bug of ours; it must not pass as a result that is missing.
        let join = |thread: std::thread::ScopedJoinHandle<'_, R>| {
            thread.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic))
        };
        running.into_iter().map(join).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::side_by_side;

    #[test]
    fn results_keep_the_order_of_the_items() {
        let items: Vec<u64> = (0..20).collect();
        let slow_first = |item: &u64| {
            std::thread::sleep(std::time::Duration::from_millis(20 - item));
            item * item
        };
        assert_eq!(side_by_side(&items, slow_first), items.iter().map(|item| item * item).collect::<Vec<_>>());
    }
}
