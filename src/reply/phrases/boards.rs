//! The squad's page: its headings and labels, and the few sentences that no
//! text says.

use super::{Care, Soreness, Spare};
use crate::profile::TroubleKind;
use crate::reply::Trend;

/// A heading or a label of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Label {
    /// What the page is called, before the squad's name.
    Board,
    /// Who must not swim, or swims with care.
    Hurting,
    /// Who is at the pool tonight.
    TonightsRegister,
    /// Who is to be there on another night.
    Register,
    /// Who swims where.
    Lanes,
    /// All that each lane swims.
    Clock,
    /// What was last swum by the clock.
    Paced,
    /// Who was tested, who is due.
    Tests,
    /// Who came.
    Weeks,
    /// What each works on, and for what.
    Focus,
    /// Before how many there are in all.
    All,
    /// What waits for whoever looks.
    ToDo,
    /// Nothing does.
    NothingToDo,
    /// Owed a test by a test night.
    Owed,
    /// A test is overdue.
    Overdue,
    /// Slower at the last test.
    Slower,
    /// Plans wait for a yes.
    Waiting,
    /// Before the time of the test before.
    Before,
    /// Nobody has anything open.
    NobodyHurting,
    /// She must not swim.
    Stopped,
    /// Behind the time of an alarm that has reached nobody.
    Unheard,
    /// Not in the water any more today.
    OutToday,
    /// In the water, and easily.
    SwimsEasy,
    /// The coach keeps them to easy swimming.
    HeldEasy,
    /// Ill.
    Ill,
    /// Ill with fever.
    Fever,
    /// In place of a level of pain.
    NoLevel,
    /// Before what their trouble lets them swim.
    MaySwim,
    /// Before who or what ends that.
    Until,
    /// Before whom to call.
    Call,
    /// Seen at the pool.
    Here,
    /// Comes later.
    Late,
    /// Comes later and is not there yet, as a mark in a lane.
    NotYet,
    /// Said to come.
    Coming,
    /// Said nothing.
    Unsaid,
    /// Said not to come.
    Out,
    /// Looked for, not there.
    Absent,
    /// A swimmer without a telephone.
    Guest,
    /// No lanes are drawn; how to draw them.
    NoLanes,
    /// Nobody swims in a lane.
    EmptyLane,
    /// At the pool and in no lane.
    InNoLane,
    /// Her pace is guessed.
    Guessed,
    /// She swims the gentle version.
    Gently,
    /// No set is put; how to put one.
    NoSet,
    /// Before the time at which a night begins.
    Starts,
    /// Before the time at which something ends.
    Ends,
    /// Behind minutes that are left.
    MinutesLeft,
    /// Before the time at which the last lane has swum its set.
    SetEnds,
    /// Nobody said when the night begins; how to say it.
    NoStart,
    /// Before the time to which lanes are booked.
    BookedTo,
    /// Before the time at which the next swimmer of a lane leaves.
    NextLeaves,
    /// Before the line that times to hold are for.
    ToHold,
    /// What the figures behind names are.
    OwnTimes,
    /// A swimmer under age, in one word.
    Minor,
    /// What each of them may swim, and until when.
    CareHow,
    /// Stops the page from looking again by itself.
    Pause,
    /// Has it look again by itself.
    GoOn,
    /// Before what is given where the page is still; `{}` is its age.
    Old,
    /// Where the server doesn't answer; `{}` is the page's age.
    Lost,
    /// What is printed.
    Prints,
    /// What the coach's own sheet is called.
    CoachSheet,
    /// A test is due, as a mark.
    TestDue,
    /// A day, as a column.
    Day,
    /// A test, as a column.
    Test,
    /// What it says beside the one before.
    Verdict,
    /// The pace that can just be kept up, with its band.
    CriticalPace,
    /// That pace, as a column.
    Pace,
    /// A week's first day.
    WeekFrom,
    /// How far was swum.
    Swum,
    /// Effort times minutes.
    Load,
    /// What went wrong in a week.
    Marks,
    /// In pain.
    Pain,
    /// Which repeat.
    Number,
    /// Its time.
    Time,
    /// How much slower than the time to hold.
    Beside,
    /// The session that comes next.
    Next,
    /// None stands; how to be given one.
    NoNext,
    /// What was offered and done, by day.
    Days,
    /// Nothing was, lately.
    NoDays,
    /// What was offered, as a column.
    Offered,
    /// Not told, but taken from who was there and what was swum.
    Presumed,
    /// To the squad's page.
    Back,
    /// Files to take along.
    Take,
    /// What they are, and for how long.
    TakeHow,
    /// A calendar under an address that lasts.
    Calendar,
    /// What it is.
    CalendarHow,
    /// Its address is shown once.
    CalendarOnce,
    /// Opens one.
    CalendarOpen,
    /// Gives it another address.
    CalendarRenew,
    /// Shuts it.
    CalendarShut,
    /// The set is over.
    Over,
    /// Nothing was paced.
    NothingPaced,
    /// No test yet.
    NoTest,
    /// A test is due.
    Due,
    /// The test night was missed.
    DueTestNight,
    /// Nobody swims here yet.
    NoSwimmers,
    /// Came, as a column.
    Came,
    /// Reported, as a column.
    Reported,
    /// Week by week, as a column.
    ByWeek,
    /// What this week was planned.
    Planned,
    /// Away, as a mark.
    Away,
    /// Ring her.
    Ring,
    /// A jump in metres.
    Jumped,
    /// Nothing to work on, no race.
    NothingAhead,
    /// Before a note.
    Note,
    /// Before a race.
    Race,
    /// The page is no longer open, as a heading.
    Shut,
    /// How to open it again.
    ShutHow,
    /// The page can't be shown now, as a heading.
    Unavailable,
    /// It tries again by itself.
    UnavailableHow,
}

/// What a language says on the squad's page.
pub trait Boards: Care {
    /// A heading or a label.
    fn label(&self, label: Label) -> &'static str;
    /// The time that the page is as of.
    fn as_of(&self, time: &str) -> String;
    /// What to leave out where it hurts a little.
    fn no_paddles(&self) -> &'static str;
    /// Nothing may be swum.
    fn no_swimming(&self) -> &'static str;
    /// The easy version of what the lane swims.
    fn easy_version(&self) -> &'static str;
    /// Stop for today.
    fn stop_for_today(&self) -> &'static str;
    /// Since when something is open: a day, or a time today.
    fn since(&self, when: &str) -> String;
    /// The place that hurts, by its English name.
    fn hurts(&self, place: &str) -> String;
    /// Pain of that level of ten.
    fn of_ten(&self, level: u8) -> String;
    /// Who lets them swim again: the reader or the coach.
    fn released_by(&self, you: bool, who: &str) -> String;
    /// Whether they say that a clinician has cleared them.
    fn clinicians_word(&self, said: bool) -> &'static str;
    /// Whether their guardian has agreed.
    fn guardians_word(&self, said: bool) -> &'static str;
    /// They end it themselves.
    fn ends_it_alone(&self) -> &'static str;
    /// A minor, and who is responsible; none goes by a name where it is empty.
    fn minor(&self, adult: Option<&str>) -> String;
    /// A minor for whom nobody has agreed.
    fn minor_alone(&self) -> &'static str;
    /// Minutes after the start.
    fn minutes_late(&self, minutes: u16) -> String;
    /// Seconds between two who leave behind each other.
    fn gap(&self, seconds: u32) -> String;
    /// How many are at the pool of all who could be.
    fn head_count(&self, here: usize, of: usize) -> String;
    /// Which of some repeats, before the words that say how many of what.
    fn nth_of(&self, number: u16) -> String;
    /// A round of so many.
    fn round_of(&self, round: u16, of: u16) -> String;
    /// Minutes longer than what is booked.
    fn over_by(&self, minutes: u32) -> String;
    /// So many repeats held of so many.
    fn held_of(&self, held: usize, of: usize) -> String;
    /// What a test says beside the one before.
    fn verdict(&self, trend: Trend) -> &'static str;
    /// Nights come of nights swum.
    fn nights(&self, came: usize, of: usize) -> String;
    /// Days reported.
    fn days(&self, number: usize) -> String;

    /// What something that is open lets them swim.
    fn lets_swim(&self, kind: &TroubleKind) -> String {
        match kind {
            TroubleKind::Faint => self.no_swimming().to_owned(),
            TroubleKind::Pain { place, level } => {
                let spared = match Soreness::of(*level) {
                    Soreness::Light => self.no_paddles(),
                    Soreness::Felt if Spare::of(place) == Spare::Water => {
                        return self.spare(Spare::Water).to_owned();
                    }
                    Soreness::Felt => self.spare(Spare::of(place)),
                    Soreness::Severe => return self.stop_for_today().to_owned(),
                };
                format!("{spared}; {}", self.easy_version())
            }
            TroubleKind::Ill { fever: true, .. } => self.no_swimming().to_owned(),
            TroubleKind::Ill { .. } | TroubleKind::Held | TroubleKind::Eased => {
                self.easy_version().to_owned()
            }
        }
    }
}
