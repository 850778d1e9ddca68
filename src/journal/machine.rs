//! The machines that serve over one journal, as they tell one another.

/// One that serves, and how the others bring it a message.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Machine {
    /// Its name: another at every start.
    pub name: String,
    /// How its address begins, as the others reach it.
    pub address: String,
    /// The secret by which the others sign what they bring.
    pub key: String,
}
