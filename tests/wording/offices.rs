//! A sample of all that is said of offices and of results of those who are out.

use jiff::civil::date;
use lapwing::history::Role;
use lapwing::reply::{
    Grave, KeptReply, OfficeDone, OfficeLetter, OfficeRefusal, Out, Outcome, StaffLine,
};

use super::parts::name;
use super::samples;

fn graves() -> Vec<Grave> {
    let who = || "kestrel".to_owned();
    vec![
        Grave::NewCoach { who: who() },
        Grave::HandOver { to: name("kestrel") },
        Grave::CoachGoes { who: "+15550111".to_owned() },
        Grave::OfficerGoes,
    ]
}

pub fn done() -> Vec<OfficeDone> {
    let line = |role, called: Option<&str>, address: &str| StaffLine {
        role,
        called: called.map(name),
        address: address.to_owned(),
    };
    vec![
        OfficeDone::SecondContact { named: true },
        OfficeDone::SecondContact { named: false },
        OfficeDone::StandsBy(true),
        OfficeDone::StandsBy(false),
        OfficeDone::StoodDown { who: name("heron") },
        OfficeDone::Staff(vec![
            line(Some(Role::Coach), None, "+15550100"),
            line(Some(Role::Assistant), Some("kestrel"), "+15550111"),
            line(Some(Role::WelfareOfficer), None, "@ann:example.org"),
            line(None, None, "+15550130"),
        ]),
        OfficeDone::CodeRenewed { code: "K7WQ2ABC".into() },
        OfficeDone::CodeSent { what: Grave::HandOver { to: name("kestrel") }, mine: true },
        OfficeDone::CodeSent { what: Grave::OfficerGoes, mine: false },
        OfficeDone::OutOfOffice { who: "kestrel".into() },
    ]
}

pub fn refusals() -> Vec<OfficeRefusal> {
    let who = || name("heron");
    vec![
        OfficeRefusal::NoSuchOffice,
        OfficeRefusal::WrongCode,
        OfficeRefusal::AskedOften,
        OfficeRefusal::Dialled,
        OfficeRefusal::Minor,
        OfficeRefusal::CommandWord { name: name("squad"), instead: name("squad2") },
        OfficeRefusal::LooksAlike { name: name("her0n"), instead: name("her0n2") },
        OfficeRefusal::StopStays,
        OfficeRefusal::NotToday { who: who(), from: date(2026, 3, 3) },
        OfficeRefusal::NeedsClearance { who: who() },
        OfficeRefusal::DangerUnanswered { who: who() },
    ]
}

pub fn letters() -> Vec<OfficeLetter> {
    let squad = || "Dusk".to_owned();
    let mut all = vec![
        OfficeLetter::SecondContact { squad: squad() },
        OfficeLetter::StandsBy { who: "teal".into() },
        OfficeLetter::Joined { who: name("heron"), squad: squad(), stopped: false },
        OfficeLetter::Joined { who: name("heron"), squad: squad(), stopped: true },
        OfficeLetter::ResultWhileOut { who: name("heron"), stopped: true },
        OfficeLetter::ResultWhileOut { who: name("heron"), stopped: false },
    ];
    for what in graves() {
        let code = "AB3K9Q".to_owned();
        all.push(OfficeLetter::Code { what: what.clone(), code, squad: squad() });
        all.push(OfficeLetter::Confirmed { what, squad: squad() });
    }
    all
}

pub fn kept() -> Vec<Outcome> {
    let of = |out, other, result| {
        Outcome::Kept(KeptReply { who: name("heron"), other, out, result: Box::new(result) })
    };
    let test = || Outcome::Test(samples::tests().remove(0));
    let set = || Outcome::Set(samples::sets().remove(0));
    let session = || Outcome::Done(samples::done().remove(0));
    let clearing = Some(Out::Clearing(date(2026, 3, 5)));
    vec![
        of(Some(Out::Stopped), false, test()),
        of(Some(Out::Stopped), true, test()),
        of(Some(Out::Ill), false, set()),
        of(Some(Out::Ill), true, set()),
        of(clearing, false, session()),
        of(clearing, true, session()),
        of(None, false, test()),
    ]
}
