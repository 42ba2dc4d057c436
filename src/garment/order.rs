/// Things ordered so that each comes after those it needs.
pub(super) struct Order {
    /// Indices; all of them, whatever circles there are.
    pub order: Vec<usize>,
    /// Every circle that was met, as the indices round it; the need that closes it was passed over.
    pub circles: Vec<Vec<usize>>,
}

/// Orders things by what they need, depth first and without recursion, so that a chain of any
/// length is fine. `needs[n]` are the indices that thing `n` needs.
pub(super) fn order_by_need(needs: &[Vec<usize>]) -> Order {
    #[derive(Clone, Copy, PartialEq)]
    enum State {
        Unseen,
        Open,
        Done,
    }
    let mut state = vec![State::Unseen; needs.len()];
    let mut order = Vec::with_capacity(needs.len());
    let mut circles = Vec::new();
    for start in 0..needs.len() {
        if state[start] != State::Unseen {
            continue;
        }
        state[start] = State::Open;
        let mut open = vec![(start, 0usize)];
        while let Some((at, next)) = open.pop() {
            let Some(&need) = needs[at].get(next) else {
                state[at] = State::Done;
                order.push(at);
                continue;
            };
            open.push((at, next + 1));
            match state[need] {
                State::Done => {}
                State::Open => {
                    let from = open.iter().position(|&(one, _)| one == need).unwrap_or(0);
                    circles.push(open[from..].iter().map(|&(one, _)| one).collect());
                }
                State::Unseen => {
                    state[need] = State::Open;
                    open.push((need, 0));
                }
            }
        }
    }
    Order { order, circles }
}
