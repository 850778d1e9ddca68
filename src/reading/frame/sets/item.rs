//! One swim of a set, as it is gathered from the pieces.

use crate::message::{Effort, Length, SetItem};
use crate::session::Part;
use crate::units::{Centis, Equipment, Level, SendOff, Stroke};

/// A swim in the making.
#[derive(Debug, Clone, PartialEq)]
pub struct Swim {
    /// How many.
    pub count: u32,
    /// How far each.
    pub length: Length,
    /// Stroke.
    pub stroke: Option<Stroke>,
    /// Send-off.
    pub send_off: Option<SendOff>,
    /// Rest behind each.
    pub rest: Option<Centis>,
    /// Time to hold.
    pub target: Option<Centis>,
    /// How hard.
    pub level: Option<Level>,
    /// Kit.
    pub kit: Vec<Equipment>,
    /// How the effort is spread.
    pub effort: Vec<Effort>,
    /// What else was written.
    pub comment: Vec<String>,
    /// The part it belongs to, where it was said.
    pub part: Option<Part>,
    /// The piece that names it.
    pub at: usize,
}

impl Swim {
    /// A swim of which nothing more is said.
    pub fn new(count: u32, length: Length, at: usize) -> Self {
        Self {
            count,
            length,
            stroke: None,
            send_off: None,
            rest: None,
            target: None,
            level: None,
            kit: vec![],
            effort: vec![],
            comment: vec![],
            part: None,
            at,
        }
    }

    /// Its metres.
    pub fn metres(&self) -> u32 {
        self.count * self.length.amount
    }

    /// True where nothing is said of how it is swum.
    pub fn is_bare(&self) -> bool {
        self.send_off.is_none()
            && self.rest.is_none()
            && self.stroke.is_none()
            && self.level.is_none()
            && self.kit.is_empty()
            && self.effort.is_empty()
    }

    /// As a set keeps it.
    pub fn into_item(self) -> Option<SetItem> {
        let comment = self.comment.join(" ");
        let comment: String = comment.chars().take(120).collect();
        Some(SetItem {
            count: u16::try_from(self.count).ok().filter(|count| (1..=100).contains(count))?,
            distance: self.length,
            stroke: self.stroke,
            send_off: self.send_off,
            rest: if self.send_off.is_some() { None } else { self.rest },
            target: self.target,
            pace_of: None,
            level: self.level,
            equipment: self.kit,
            effort: self.effort,
            comment: (!comment.is_empty()).then_some(comment),
        })
    }
}
