//! The headings and labels of the page.

use crate::reply::Voice;

/// Writes the labels and their words, English then Spanish, from one list.
macro_rules! labels {
    ($($(#[$doc:meta])+ $name:ident: $en:literal, $es:literal;)+) => {
        /// A heading or a label of the page.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Label { $($(#[$doc])+ $name),+ }

        impl Voice {
            /// A heading or a label.
            pub fn label(self, label: Label) -> &'static str {
                match label { $(Label::$name => self.pick($en, $es)),+ }
            }
        }
    };
}

labels! {
    /// What the page is called, before the squad's name.
    Board: "Board", "Pizarra";
    /// Who must not swim, or swims with care.
    Hurting: "Stopped or hurting now", "Fuera o con dolor ahora";
    /// Who is at the pool tonight.
    TonightsRegister: "Tonight's register", "Lista de hoy";
    /// Who is to be there on another night.
    Register: "Register", "Lista";
    /// Who swims where.
    Lanes: "Lanes", "Calles";
    /// All that each lane swims.
    Clock: "The whole set", "La serie entera";
    /// What was last swum by the clock.
    Paced: "Last paced set", "Ultima serie a ritmo";
    /// Who was tested, who is due.
    Tests: "Tests", "Tests";
    /// Who came.
    Weeks: "The last four weeks", "Las últimas cuatro semanas";
    /// What each works on, and for what.
    Focus: "Focus and next date", "Foco y próxima fecha";
    /// Before how many there are in all.
    All: "All", "Todos:";
    /// What waits for whoever looks.
    ToDo: "To do", "Por hacer";
    /// Nothing does.
    NothingToDo: "Nothing waits for you.", "Nada te espera.";
    /// Owed a test by a test night.
    Owed: "Owed a test", "Deben un test";
    /// A test is overdue.
    Overdue: "Test overdue", "Test atrasado";
    /// Slower at the last test.
    Slower: "Slower than before", "Más lentos que antes";
    /// Plans wait for a yes.
    Waiting:
        "Plans wait for your yes: text SQUAD WAITING",
        "Planes esperan tu sí: escribe EQUIPO PENDIENTES";
    /// Before the time of the test before.
    Before: "before it", "antes";
    /// Nobody has anything open.
    NobodyHurting: "Nobody is stopped or hurting.", "Nadie está parado ni con dolor.";
    /// They must not swim.
    Stopped: "Stopped: out of the water", "Parado: fuera del agua";
    /// Behind the time of an alarm that has reached nobody.
    Unheard:
        "An alarm has reached nobody by text. Look at who is stopped below.",
        "Un aviso de peligro no ha llegado a nadie. Mira abajo quien no puede nadar.";
    /// Not in the water any more today.
    OutToday: "out today", "hoy no nada";
    /// In the water, and easily.
    SwimsEasy: "swims easy", "nada suave";
    /// The coach keeps them to easy swimming.
    HeldEasy: "coach's word", "por el entrenador";
    /// Ill.
    Ill: "ill", "enfermo";
    /// Ill with fever.
    Fever: "ill, fever", "enfermo, con fiebre";
    /// In place of a level of pain.
    NoLevel: "no level said", "sin nivel";
    /// Pain or illness that was asked about.
    Unanswered: "asked about, no answer", "preguntado, sin respuesta";
    /// Before what their trouble lets them swim.
    MaySwim: "Now", "Ahora";
    /// Before who or what ends that.
    Until: "Until", "Hasta que";
    /// Before whom to call.
    Call: "Call their contact", "Llamar a su contacto";
    /// Seen at the pool.
    Here: "Here", "Presentes";
    /// Comes later.
    Late: "Late", "Tarde";
    /// Comes later and is not there yet, as a mark in a lane.
    NotYet: "late", "tarde";
    /// Said to come.
    Coming: "Expected", "Esperados";
    /// Said nothing.
    Unsaid: "Not heard from", "Sin noticias";
    /// Said not to come.
    Out: "Out", "No vienen";
    /// Looked for, not there.
    Absent: "Looked for, not here", "Buscados, no están";
    /// A swimmer without a telephone.
    Guest: "guest", "invitado";
    /// No lanes are drawn; how to draw them.
    NoLanes: "No lanes drawn. Text LANES 4.", "Sin calles repartidas. Escribe CALLES 4.";
    /// Nobody swims in a lane.
    EmptyLane: "empty", "vacía";
    /// At the pool and in no lane.
    InNoLane: "Here, in no lane", "Presentes, sin calle";
    /// Their pace is guessed.
    Guessed: "pace guessed", "ritmo supuesto";
    /// They swim the gentle version.
    Gently: "easy", "suave";
    /// No set is put; how to put one.
    NoSet:
        "No set yet. Text PLAN TONIGHT, or SET and what you want swum.",
        "Todavía sin serie. Escribe PLAN HOY, o SERIE y lo que se nada.";
    /// Before the time at which a night begins.
    Starts: "Starts", "Empieza";
    /// Before the time at which something ends.
    Ends: "Ends", "Acaba";
    /// Behind minutes that are left.
    MinutesLeft: "min left", "min quedan";
    /// Before the time at which the last lane has swum its set.
    SetEnds: "set ends", "serie hasta";
    /// Nobody said when the night begins; how to say it.
    NoStart:
        "Nobody said when it starts. Text SLOT TUE 2000-2100 4 LANES.",
        "Falta la hora. Escribe TURNO MARTES 2000-2100 4 CALLES.";
    /// Before the time to which lanes are booked.
    BookedTo: "booked to", "reserva hasta";
    /// Before the time at which the next swimmer of a lane leaves.
    NextLeaves: "next leaves", "sale";
    /// Before the line that times to hold are for.
    ToHold: "To hold:", "A mantener:";
    /// What the figures behind names are.
    OwnTimes: "beside names: the time to hold", "junto al nombre, su tiempo";
    /// A swimmer under age, in one word.
    Minor: "minor", "menor";
    /// What each of them may swim, and until when.
    CareHow: "What each may swim", "Qué nada cada uno";
    /// Stops the page from looking again by itself.
    Pause: "Pause updates", "No actualizar";
    /// Has it look again by itself.
    GoOn: "Resume updates", "Actualizar";
    /// Before what is given where the page is still; `{}` is its age.
    Old: "Paused: this is {} old.", "En pausa: esto es de hace {}.";
    /// Where the server doesn't answer; `{}` is the page's age.
    Lost:
        "The server does not answer: this is {} old.",
        "El servidor no contesta: esto es de hace {}.";
    /// What is printed.
    Prints:
        "Printed, this page is a sheet for each lane and one for the coach.",
        "Impresa, esta página da una hoja por calle y una para el entrenador.";
    /// What the coach's own sheet is called.
    CoachSheet: "the coach's sheet", "hoja del entrenador";
    /// A test is due, as a mark.
    TestDue: "test due", "le toca test";
    /// A day, as a column.
    Day: "day", "día";
    /// A test, as a column.
    Test: "test", "test";
    /// What it says beside the one before.
    Verdict: "beside the last", "frente al último";
    /// The pace that can just be kept up, with its band.
    CriticalPace: "critical pace per 100, with its band", "ritmo crítico por 100, con su margen";
    /// That pace, as a column.
    Pace: "critical pace", "ritmo crítico";
    /// A week's first day.
    WeekFrom: "week from", "semana del";
    /// How far was swum.
    Swum: "swum", "nadado";
    /// Effort times minutes.
    Load: "effort x min", "esfuerzo x min";
    /// What went wrong in a week.
    Marks: "marks", "marcas";
    /// In pain.
    Pain: "pain", "dolor";
    /// Which repeat.
    Number: "repeat", "repetición";
    /// Its time.
    Time: "time", "tiempo";
    /// How much slower than the time to hold.
    Beside: "slower by", "más lento";
    /// The session that comes next.
    Next: "Next session", "Próximo entreno";
    /// None stands; how to be given one.
    NoNext:
        "None stands now. The text NEXT gives one.",
        "Ahora no hay ninguno. El texto SIGUIENTE da uno.";
    /// What was offered and done, by day.
    Days: "Offered and swum", "Propuesto y nadado";
    /// Nothing was, lately.
    NoDays:
        "Nothing offered or swum in four weeks.",
        "Nada propuesto ni nadado en cuatro semanas.";
    /// What was offered, as a column.
    Offered: "offered", "propuesto";
    /// Not told, but taken from who was there and what was swum.
    Presumed: "by the register", "según la lista";
    /// To the squad's page.
    Back: "Back to the board", "Volver a la pizarra";
    /// Files to take along.
    Take: "To take along", "Para llevar";
    /// What they are, and for how long.
    TakeHow:
        "Nothing of anybody's health. As long as this page is open.",
        "Nada de la salud de nadie. Mientras esta página esté abierta.";
    /// A calendar under an address that lasts.
    Calendar: "A calendar that lasts", "Un calendario que dura";
    /// What it is.
    CalendarHow:
        "An address for your calendar's own app: nights, races and sessions, kept up to date. \
         Whoever has it sees them.",
        "Una dirección para tu calendario: noches, carreras y entrenos, al día. Quien la tiene \
         los ve.";
    /// Its address is shown once.
    CalendarOnce:
        "Copy it now: it is shown this once.",
        "Cópiala ahora: sólo se muestra esta vez.";
    /// Opens one.
    CalendarOpen: "Open one", "Abrir uno";
    /// Gives it another address.
    CalendarRenew: "A new address; the old one shuts", "Otra dirección; la de antes se cierra";
    /// Shuts it.
    CalendarShut: "Shut it", "Cerrarlo";
    /// The set is over.
    Over: "All swum.", "Todo nadado.";
    /// Nothing was paced.
    NothingPaced:
        "No set with a target in four weeks.",
        "Ninguna serie con ritmo en cuatro semanas.";
    /// No test yet.
    NoTest: "no test yet", "sin test";
    /// A test is due.
    Due: "Due", "Le toca";
    /// The test night was missed.
    DueTestNight: "Due: missed the test night", "Le toca: faltó a la noche de test";
    /// Nobody swims here yet.
    NoSwimmers:
        "Nobody swims here yet. Swimmers text JOIN, the code and a name.",
        "Aún no nada nadie aquí. Escriben UNIR, el código y un nombre.";
    /// Came, as a column.
    Came: "Came", "Vino";
    /// Reported, as a column.
    Reported: "Reported", "Contó";
    /// Week by week, as a column.
    ByWeek: "Week by week", "Semana a semana";
    /// What this week was planned.
    Planned: "planned", "previsto";
    /// Away, as a mark.
    Away: "away", "fuera";
    /// Ring them.
    Ring: "Ring: not heard from", "Llamar: sin noticias";
    /// A jump in metres.
    Jumped: "Metres jumped", "Salto de metros";
    /// Nothing to work on, no race.
    NothingAhead:
        "No focus, note or race. Text FOCUS HERON: LONG NECK.",
        "Sin foco, nota ni carrera. Escribe FOCO HERON: CUELLO LARGO.";
    /// Before a note.
    Note: "Note", "Nota";
    /// Before a race.
    Race: "Race", "Carrera";
    /// The page is no longer open, as a heading.
    Shut: "This board is shut", "Esta pizarra está cerrada";
    /// How to open it again.
    ShutHow:
        "Text BOARD for a new address. It stays open for 12 hours.",
        "Escribe PIZARRA y te damos otra dirección, para 12 horas.";
    /// The page can't be shown now, as a heading.
    Unavailable: "Not to be had just now", "Ahora no se puede";
    /// It tries again by itself.
    UnavailableHow: "This page tries again by itself.", "Esta página lo intenta otra vez sola.";
}
