//! A Gaussian chain over distances: each pulled by its results and by its
//! neighbours, and held near what was swum.
//!
//! Numbers only: knows nothing of swims.

/// Variance that a deviation gains over one unit of the logarithm of distance:
/// a standard deviation of 3 % from a distance to one 2.7 times as long. Ours;
/// in simulated seasons the bands then hold what they say
/// (`tests/swim/curve/simulated.rs`).
const VARIANCE_PER_LN: f64 = 0.03 * 0.03;
/// Where the search for a held chain has come to rest.
const REST: f64 = 1e-13;
/// It needs some dozens of rounds; this many are a bound for strange figures.
const MOST_ROUNDS: usize = 20_000;

/// One place of the chain, with all results there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Node {
    /// Logarithm of the distance.
    pub at: f64,
    /// Sum of the results' weights, one over their variances.
    pub weight: f64,
    /// Sum of weight times deviation.
    pub pull: f64,
    /// The deviation is never below this.
    pub low: f64,
    /// Nor above this.
    pub high: f64,
}

/// The chain, solved.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    /// The nodes, with the precision of what is known at each from it and all before it,
    /// and from it and all after it.
    nodes: Vec<(Node, f64, f64)>,
    /// Where the deviation is solved, and what it is there: at the nodes, and where it was
    /// pressed down.
    solved: Vec<(f64, f64)>,
}

/// What is known at a node from one side.
#[derive(Clone, Copy)]
struct Message {
    precision: f64,
    mean: f64,
}

impl Chain {
    /// Solves for `nodes`, sorted by place, each of its own place and with some
    /// weight. `None` without one.
    pub fn solve(nodes: Vec<Node>) -> Option<Chain> {
        if nodes.is_empty() {
            return None;
        }
        let from_left = messages(nodes.iter());
        let mut from_right = messages(nodes.iter().rev());
        from_right.reverse();
        let known = || nodes.iter().zip(from_left.iter().zip(&from_right));
        // Each message holds the node's own results, which count once.
        let free = known().map(|(node, (left, right))| {
            let precision = left.precision + right.precision - node.weight;
            let pulled = left.precision * left.mean + right.precision * right.mean - node.pull;
            pulled / precision
        });
        let solved = solved(&nodes, held(&nodes, free.collect()));
        let nodes = known().map(|(node, (left, right))| (*node, left.precision, right.precision));
        Some(Chain { nodes: nodes.collect(), solved })
    }

    /// The same chain with the deviation at `at` no higher than `most`, unless its
    /// own bounds say so. It pulls its neighbours down with it, none by more.
    pub fn pressed(mut self, at: f64, most: f64) -> Chain {
        let mut nodes: Vec<Node> = self.nodes.iter().map(|(node, ..)| *node).collect();
        let mut free: Vec<f64> = self.solved.iter().map(|(_, deviation)| *deviation).collect();
        match nodes.iter_mut().find(|node| node.at == at) {
            Some(node) => node.high = node.high.min(most).max(node.low),
            None => {
                let index = nodes.partition_point(|node| node.at < at);
                let node = Node { at, weight: 0.0, pull: 0.0, low: f64::MIN, high: most };
                free.insert(index, self.mean(at));
                nodes.insert(index, node);
            }
        }
        self.solved = solved(&nodes, held(&nodes, free));
        self
    }

    /// The deviation at `at`: straight between places, level beyond them.
    pub fn mean(&self, at: f64) -> f64 {
        match around(&self.solved, |(place, _)| *place < at) {
            (Some((before, deviation)), Some((after, next))) => {
                let share = (at - before) / (after - before);
                deviation + share * (next - deviation)
            }
            (Some((_, only)), None) | (None, Some((_, only))) => *only,
            // No chain is without a node.
            (None, None) => 0.0,
        }
    }

    /// The variance of the deviation at `at`.
    pub fn variance(&self, at: f64) -> f64 {
        let (before, after) = around(&self.nodes, |(node, ..)| node.at < at);
        let left = before.map(|(node, known, _)| 1.0 / known + VARIANCE_PER_LN * (at - node.at));
        let right = after.map(|(node, _, known)| 1.0 / known + VARIANCE_PER_LN * (node.at - at));
        let precision = left.map_or(0.0, f64::recip) + right.map_or(0.0, f64::recip);
        precision.recip()
    }
}

/// The last that is before, and the first that is not.
fn around<T>(row: &[T], is_before: impl Fn(&T) -> bool) -> (Option<&T>, Option<&T>) {
    let after = row.partition_point(is_before);
    (after.checked_sub(1).and_then(|before| row.get(before)), row.get(after))
}

/// The nodes' places, each with the deviation there.
fn solved(nodes: &[Node], deviations: Vec<f64>) -> Vec<(f64, f64)> {
    nodes.iter().map(|node| node.at).zip(deviations).collect()
}

/// What is known at each node from it and all that came before it.
fn messages<'a>(nodes: impl Iterator<Item = &'a Node>) -> Vec<Message> {
    let mut messages = Vec::new();
    let mut before: Option<(f64, f64, f64)> = None;
    for node in nodes {
        let (mut precision, mut pull) = (node.weight, node.pull);
        if let Some((at, known, mean)) = before {
            let passed = 1.0 / (1.0 / known + VARIANCE_PER_LN * (node.at - at).abs());
            precision += passed;
            pull += passed * mean;
        }
        let mean = pull / precision;
        before = Some((node.at, precision, mean));
        messages.push(Message { precision, mean });
    }
    messages
}

/// The chain that keeps within the bounds, nearest to the free one: Gauss-Seidel
/// with each step cut to its bounds, which converges for such a matrix (Cryer
/// 1971, SIAM J Control 9:385-392; from memory).
fn held(nodes: &[Node], mut free: Vec<f64>) -> Vec<f64> {
    let within = |node: &Node, value: f64| value.clamp(node.low, node.high);
    if nodes.iter().zip(&free).all(|(node, value)| within(node, *value) == *value) {
        return free;
    }
    let tie = |one: &Node, other: &Node| 1.0 / (VARIANCE_PER_LN * (other.at - one.at));
    for _ in 0..MOST_ROUNDS {
        let mut moved = 0.0f64;
        let mut before: Option<(&Node, f64)> = None;
        let (mut here, mut values) = (nodes, free.as_mut_slice());
        while let ([node, others @ ..], [value, behind @ ..]) = (here, values) {
            let (mut precision, mut pull) = (node.weight, node.pull);
            if let Some((before, deviation)) = before {
                let tie = tie(before, node);
                precision += tie;
                pull += tie * deviation;
            }
            if let (Some(next), Some(deviation)) = (others.first(), behind.first()) {
                let tie = tie(node, next);
                precision += tie;
                pull += tie * deviation;
            }
            let new = within(node, pull / precision);
            moved = moved.max((new - *value).abs());
            *value = new;
            (before, here, values) = (Some((node, new)), others, behind);
        }
        if moved < REST {
            break;
        }
    }
    free
}
