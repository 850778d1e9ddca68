//! Which kinds of statement are related: they tell of the same thing, who comes, what was
//! swum, what ails.

use crate::message::Statement;
use crate::reading::likely::Class;

/// True of what is told in figures.
pub fn counts(one: &Statement) -> bool {
    let class = Class::of(&one.kind);
    class.and_then(related).is_some_and(|_| !class.is_some_and(ails))
}

/// True of what lowers what follows.
pub const fn ails(class: Class) -> bool {
    matches!(class, Class::Pain | Class::Ill)
}

/// The kinds that tell who comes, and when.
const COMING: &[Class] = &[Class::Attend, Class::Away, Class::Missed, Class::Register];

/// True of these.
pub fn is_of_coming(class: Class) -> bool {
    COMING.contains(&class)
}

/// What is told by one of a kind is told by its kin: whoever is away says no more by not
/// coming.
pub const fn related(class: Class) -> Option<&'static [Class]> {
    const SWUM: &[Class] = &[Class::Test, Class::SetResult, Class::Done, Class::Fix];
    const AILING: &[Class] = &[Class::Pain, Class::Ill];
    match class {
        Class::Attend | Class::Away | Class::Missed | Class::Register => Some(COMING),
        Class::Test | Class::SetResult | Class::Done => Some(SWUM),
        Class::Pain | Class::Ill => Some(AILING),
        Class::Race => Some(&[Class::Race]),
        _ => None,
    }
}

/// Kinds so like one another that a text which tells one may be said to tell another.
const ALIKE: [&[Class]; 6] = [
    &[Class::Test, Class::SetResult, Class::Done, Class::Fix, Class::Undo],
    &[
        Class::Next,
        Class::Plan,
        Class::Easier,
        Class::Shorter,
        Class::Harder,
        Class::More,
        Class::Again,
    ],
    &[Class::Note, Class::Limit, Class::Hold],
    &[Class::Set, Class::Change],
    &[Class::Timetable, Class::Lanes],
    &[Class::Race, Class::Targets, Class::Predict],
];

/// What is so like a kind that a text which tells one may be said to tell the other.
pub fn kin(class: Class) -> &'static [Class] {
    let alike = ALIKE.into_iter().find(|all| all.contains(&class));
    alike.or_else(|| related(class)).unwrap_or_default()
}
