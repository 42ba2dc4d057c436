/// The strongly connected parts of a graph, each after those that it needs. Without recursion.
pub(super) fn strong_parts(needs: &[Vec<usize>]) -> Vec<Vec<usize>> {
    const UNSEEN: usize = usize::MAX;
    let mut index = vec![UNSEEN; needs.len()];
    let mut low = vec![0usize; needs.len()];
    let mut on_stack = vec![false; needs.len()];
    let mut stack = Vec::new();
    let mut parts = Vec::new();
    let mut counter = 0;
    for start in 0..needs.len() {
        if index[start] != UNSEEN {
            continue;
        }
        let mut open = vec![(start, 0usize)];
        while let Some((at, next)) = open.pop() {
            if next == 0 {
                index[at] = counter;
                low[at] = counter;
                counter += 1;
                stack.push(at);
                on_stack[at] = true;
            }
            if let Some(&need) = needs[at].get(next) {
                open.push((at, next + 1));
                if index[need] == UNSEEN {
                    open.push((need, 0));
                } else if on_stack[need] {
                    low[at] = low[at].min(index[need]);
                }
                continue;
            }
            if let Some(&(parent, _)) = open.last() {
                low[parent] = low[parent].min(low[at]);
            }
            if low[at] == index[at] {
                let mut part = Vec::new();
                while let Some(member) = stack.pop() {
                    on_stack[member] = false;
                    part.push(member);
                    if member == at {
                        break;
                    }
                }
                part.reverse();
                parts.push(part);
            }
        }
    }
    parts
}
