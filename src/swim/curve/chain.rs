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
    nodes: Vec<Node>,
    /// Precision of what is known at each node from it and all before it.
    from_left: Vec<f64>,
    /// From it and all after it.
    from_right: Vec<f64>,
    /// Where the deviation is solved: at the nodes, and where it was pressed down.
    places: Vec<f64>,
    /// The deviation there.
    solved: Vec<f64>,
}

impl Chain {
    /// Solves for `nodes`, sorted by place, each of its own place and with some
    /// weight. `None` without one.
    pub fn solve(nodes: Vec<Node>) -> Option<Chain> {
        if nodes.is_empty() {
            return None;
        }
        let (from_left, left_mean) = messages(nodes.iter());
        let (mut from_right, mut right_mean) = messages(nodes.iter().rev());
        from_right.reverse();
        right_mean.reverse();
        // Each message holds the node's own results, which count once.
        let free = (0..nodes.len()).map(|index| {
            let Node { weight, pull, .. } = nodes[index];
            let precision = from_left[index] + from_right[index] - weight;
            let pulled =
                from_left[index] * left_mean[index] + from_right[index] * right_mean[index] - pull;
            pulled / precision
        });
        let solved = held(&nodes, free.collect());
        let places = nodes.iter().map(|node| node.at).collect();
        Some(Chain { nodes, from_left, from_right, places, solved })
    }

    /// The same chain with the deviation at `at` no higher than `most`, unless its
    /// own bounds say so. It pulls its neighbours down with it, none by more.
    pub fn pressed(mut self, at: f64, most: f64) -> Chain {
        let mut nodes = self.nodes.clone();
        let mut free = self.solved.clone();
        match nodes.iter_mut().find(|node| node.at == at) {
            Some(node) => node.high = node.high.min(most).max(node.low),
            None => {
                let index = nodes.partition_point(|node| node.at < at);
                let node = Node { at, weight: 0.0, pull: 0.0, low: f64::MIN, high: most };
                free.insert(index, self.mean(at));
                nodes.insert(index, node);
            }
        }
        self.solved = held(&nodes, free);
        self.places = nodes.iter().map(|node| node.at).collect();
        self
    }

    /// The deviation at `at`: straight between places, level beyond them.
    pub fn mean(&self, at: f64) -> f64 {
        let after = self.places.partition_point(|place| *place < at);
        let (Some(before), Some(next)) = (after.checked_sub(1), self.places.get(after)) else {
            return self.solved[after.min(self.solved.len() - 1)];
        };
        let share = (at - self.places[before]) / (next - self.places[before]);
        self.solved[before] + share * (self.solved[after] - self.solved[before])
    }

    /// The variance of the deviation at `at`.
    pub fn variance(&self, at: f64) -> f64 {
        let after = self.nodes.partition_point(|node| node.at < at);
        let left = after.checked_sub(1).map(|index| {
            1.0 / self.from_left[index] + VARIANCE_PER_LN * (at - self.nodes[index].at)
        });
        let right = self
            .nodes
            .get(after)
            .map(|node| 1.0 / self.from_right[after] + VARIANCE_PER_LN * (node.at - at));
        let precision = left.map_or(0.0, f64::recip) + right.map_or(0.0, f64::recip);
        precision.recip()
    }
}

/// What is known at each node from it and all that came before it: precision
/// and mean.
fn messages<'a>(nodes: impl Iterator<Item = &'a Node>) -> (Vec<f64>, Vec<f64>) {
    let (mut precisions, mut means) = (Vec::new(), Vec::new());
    let mut before: Option<(f64, f64, f64)> = None;
    for node in nodes {
        let (mut precision, mut pull) = (node.weight, node.pull);
        if let Some((at, known, mean)) = before {
            let passed = 1.0 / (1.0 / known + VARIANCE_PER_LN * (node.at - at).abs());
            precision += passed;
            pull += passed * mean;
        }
        before = Some((node.at, precision, pull / precision));
        precisions.push(precision);
        means.push(pull / precision);
    }
    (precisions, means)
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
        for index in 0..nodes.len() {
            let node = &nodes[index];
            let (mut precision, mut pull) = (node.weight, node.pull);
            if let Some(before) = index.checked_sub(1) {
                let tie = tie(&nodes[before], node);
                precision += tie;
                pull += tie * free[before];
            }
            if let Some(next) = nodes.get(index + 1) {
                let tie = tie(node, next);
                precision += tie;
                pull += tie * free[index + 1];
            }
            let value = within(node, pull / precision);
            moved = moved.max((value - free[index]).abs());
            free[index] = value;
        }
        if moved < REST {
            break;
        }
    }
    free
}
