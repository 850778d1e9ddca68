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

/// True of the kinds that tell who comes, and when.
pub const fn is_of_coming(class: Class) -> bool {
    matches!(class, Class::Attend | Class::Away | Class::Missed | Class::Register)
}

/// What is told by one of a kind is told by its kin: whoever is away says no more by not
/// coming.
pub const fn related(class: Class) -> Option<&'static [Class]> {
    const COMING: &[Class] = &[Class::Attend, Class::Away, Class::Missed, Class::Register];
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

/// What is so like a kind that a text which tells one may be said to tell the other.
pub const fn kin(class: Class) -> &'static [Class] {
    const SWUM: &[Class] = &[Class::Test, Class::SetResult, Class::Done, Class::Fix, Class::Undo];
    const WISHED: &[Class] = &[
        Class::Next,
        Class::Plan,
        Class::Easier,
        Class::Shorter,
        Class::Harder,
        Class::More,
        Class::Again,
    ];
    const NOTED: &[Class] = &[Class::Note, Class::Limit, Class::Hold];
    match class {
        Class::Test | Class::SetResult | Class::Done | Class::Fix | Class::Undo => SWUM,
        Class::Next
        | Class::Plan
        | Class::Easier
        | Class::Shorter
        | Class::Harder
        | Class::More
        | Class::Again => WISHED,
        Class::Note | Class::Limit | Class::Hold => NOTED,
        Class::Set | Class::Change => &[Class::Set, Class::Change],
        Class::Timetable | Class::Lanes => &[Class::Timetable, Class::Lanes],
        Class::Race | Class::Targets | Class::Predict => {
            &[Class::Race, Class::Targets, Class::Predict]
        }
        class => match related(class) {
            Some(kin) => kin,
            None => &[],
        },
    }
}
