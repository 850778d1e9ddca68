//! The rules, one row each, in the order a coach would read them.

use super::rule::{Number, Rule, Words};

const PRACTICE: &str = "common practice, no source";
const OURS: &str = "ours";

/// Writes the enum of the rules' names and the table of the rules from one
/// list, so that neither can miss a row of the other.
macro_rules! rules {
    ($($name:ident $id:literal {
        when: $when:literal, then: $then:literal,
        $(number: $value:literal $unit:literal ($least:literal to $most:literal),)?
        source: $source:expr,
        en: $en:literal, es: $es:literal $(,)?
    })*) => {
        /// The name of a rule.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum RuleId { $(#[doc = $when] $name),* }

        /// Every rule, in the order of [`RuleId`].
        pub(super) const RULES: &[Rule] = &[$(Rule {
            id: $id,
            when: $when,
            then: $then,
            number: rules!(@number $($value $unit $least $most)?),
            source: $source,
            reason: Words { en: $en, es: $es },
        }),*];
    };
    (@number) => { None };
    (@number $value:literal $unit:literal $least:literal $most:literal) => {
        Some(Number { value: $value, unit: $unit, least: $least, most: $most })
    };
}

rules! {
    // Who may swim what.
    Stopped "stopped" {
        when: "faintness or chest pain is open",
        then: "no session until the coach releases",
        source: "ours, after the warning signs of exercise testing (ACSM)",
        en: "Nothing is swum after faintness or chest pain until your coach releases you.",
        es: "Tras un desmayo o dolor de pecho no se nada hasta que tu entrenador te autorice.",
    }
    Held "held" {
        when: "the coach holds them at easy",
        then: "easy work only until released",
        source: PRACTICE,
        en: "You stay at easy for now.",
        es: "Te quedas en suave por ahora.",
    }
    Limits "limits" {
        when: "they can't or may not do something",
        then: "easy free in place of a stroke, no such kit, no such drill",
        source: PRACTICE,
        en: "Left out what you can't or may not do.",
        es: "Sin lo que no puedes o no debes hacer.",
    }
    NotCleared "not-cleared" {
        when: "the readiness questions are not answered, or not with a clear yes",
        then: "easy work only, no targets",
        source: "screening before hard exercise (ACSM guidelines, 10th edition)",
        en: "Easy only until the health questions are answered.",
        es: "Solo suave hasta responder las preguntas de salud.",
    }
    NoTest "no-test" {
        when: "there is no test",
        then: "easy work only, no targets, send-offs by the sessions that they told, else such as anyone makes",
        source: PRACTICE,
        en: "Without a test there is no pace to aim at, so all is easy.",
        es: "Sin test no hay ritmo al que apuntar, todo es suave.",
    }
    FirstSwimsEasy "first-swims-easy" {
        when: "a newcomer or returner has swum fewer sessions than this",
        then: "easy sessions, no test",
        number: 4.0 "swims" (1.0 to 10.0),
        source: PRACTICE,
        en: "The first swims are easy; a hard test comes after.",
        es: "Los primeros entrenos son suaves; el test fuerte viene luego.",
    }
    PainEasy "pain-easy" {
        when: "pain is open, or pain, illness or a stop is just over",
        then: "nothing hard, and this share of the last distance",
        number: 70.0 "percent" (30.0 to 90.0),
        source: PRACTICE,
        en: "Pain or a stop lowers the next swims and never raises them.",
        es: "El dolor o una parada rebajan los entrenos siguientes, nunca los suben.",
    }
    PainStop "pain-stop" {
        when: "pain is at this level or above",
        then: "no more swimming today, half the distance next time",
        number: 6.0 "of 10" (4.0 to 8.0),
        source: PRACTICE,
        en: "Pain this strong ends today's swim.",
        es: "Un dolor así termina el entreno de hoy.",
    }
    PainSwap "pain-swap" {
        when: "pain is open in a place that some work loads",
        then: "that work is left out: shoulder no paddles, board, butterfly; knee no breaststroke kick; back no butterfly",
        source: "after surveys of shoulder pain in swimmers (McMaster & Troup 1993) and common practice",
        en: "What loads the sore place is left out.",
        es: "Se deja fuera lo que carga la zona dolorida.",
    }
    IllEasy "ill-easy" {
        when: "illness is open",
        then: "nothing hard, and this share of the last distance",
        number: 50.0 "percent" (20.0 to 80.0),
        source: PRACTICE,
        en: "After illness you start again with much less.",
        es: "Tras una enfermedad se vuelve con mucho menos.",
    }
    IllDays "ill-days" {
        when: "illness is open",
        then: "no swim before this many clear days",
        number: 2.0 "days" (1.0 to 14.0),
        source: PRACTICE,
        en: "Clear days come before the first easy swim.",
        es: "Unos días sin síntomas antes del primer entreno suave.",
    }
    FeverDays "fever-days" {
        when: "illness with fever is open",
        then: "no swim before this many days, and a clinician first where the chest is in it",
        number: 4.0 "days" (2.0 to 21.0),
        source: PRACTICE,
        en: "No swimming with a fever, nor the days right after.",
        es: "Con fiebre no se nada, ni los días siguientes.",
    }

    // Coming back.
    ReturnDays "return-days" {
        when: "illness, strong pain or a stop is over",
        then: "nothing hard and no test for this many days from the first on which they may swim",
        number: 7.0 "days" (3.0 to 28.0),
        source: PRACTICE,
        en: "After illness, pain or a stop the first week back is easy, whatever else is due.",
        es: "Tras enfermedad, dolor o una parada la primera semana es suave, toque lo que toque.",
    }
    FeverReturnDays "fever-return-days" {
        when: "a fever or a chest infection is over",
        then: "nothing hard and no test for this many days",
        number: 14.0 "days" (7.0 to 42.0),
        source: PRACTICE,
        en: "After a fever the way back takes two easy weeks.",
        es: "Tras la fiebre la vuelta son dos semanas suaves.",
    }
    BreakDays "break-days" {
        when: "this many days without a swim",
        then: "a return week, easy",
        number: 10.0 "days" (7.0 to 21.0),
        source: PRACTICE,
        en: "After days out of the water you come back with less, easy.",
        es: "Tras unos días sin nadar se vuelve con menos, suave.",
    }
    BreakShare "break-share" {
        when: "a break of ten days to three weeks",
        then: "this share of the old distance, for one week",
        number: 70.0 "percent" (40.0 to 100.0),
        source: PRACTICE,
        en: "After a short break the first week is well under the old one.",
        es: "Tras una pausa corta la primera semana es bastante menor.",
    }
    LongBreakShare "long-break-share" {
        when: "a break of three to six weeks",
        then: "this share of the old distance, two easy weeks, old targets put away",
        number: 50.0 "percent" (20.0 to 80.0),
        source: PRACTICE,
        en: "After weeks out of the water you come back low and easy.",
        es: "Tras semanas sin nadar se vuelve bajo y suave.",
    }
    LongestBreakShare "longest-break-share" {
        when: "a break of more than six weeks",
        then: "this share of the old distance, three easy weeks, then a test",
        number: 40.0 "percent" (20.0 to 70.0),
        source: PRACTICE,
        en: "After a long time out you start low and test again.",
        es: "Tras mucho tiempo sin nadar se empieza bajo y se repite el test.",
    }

    // The week.
    RampWeek "ramp-week" {
        when: "a normal or hard week is planned",
        then: "at most this much over the largest such week of the four before",
        number: 10.0 "percent" (0.0 to 15.0),
        source: "no cut-off is known (systematic review, J Athl Train 2020 55:32-41); 10 percent is common practice",
        en: "A week grows only a little on the largest of the last four.",
        es: "Una semana crece solo un poco sobre la mayor de las últimas cuatro.",
    }
    RampSession "ramp-session" {
        when: "they swim three times a week or fewer",
        then: "a session is at most this much over the largest of the last four weeks",
        number: 10.0 "percent" (0.0 to 25.0),
        source: PRACTICE,
        en: "With few swims a week it is the session that grows slowly.",
        es: "Con pocos entrenos por semana, lo que crece despacio es el entreno.",
    }
    RampSessionMetres "ramp-session-metres" {
        when: "ten percent of a session is less than this",
        then: "a session may grow by this much all the same",
        number: 200.0 "m" (0.0 to 400.0),
        source: PRACTICE,
        en: "A short session may grow by a few lengths at once.",
        es: "Un entreno corto puede crecer unos largos de una vez.",
    }
    NormalStep "normal-step" {
        when: "a normal week follows a normal week",
        then: "it grows by this much",
        number: 5.0 "percent" (0.0 to 10.0),
        source: PRACTICE,
        en: "A normal week is a small step up.",
        es: "Una semana normal es un paso pequeño hacia arriba.",
    }
    FirstWeekShare "first-week-share" {
        when: "nothing was planned or swum before",
        then: "the first week fills this share of the time there is",
        number: 85.0 "percent" (50.0 to 100.0),
        source: OURS,
        en: "The first week leaves room to grow.",
        es: "La primera semana deja margen para crecer.",
    }
    AsBefore "as-before" {
        when: "nothing was planned before, and they swim more than a first week would be",
        then: "the week is what they swim already, as far as the time holds it",
        source: OURS,
        en: "About what you swim already, as far as your minutes hold it.",
        es: "Más o menos lo que ya nadas, hasta donde dan tus minutos.",
    }
    EasyWeekAfter "easy-week-after" {
        when: "this many normal or hard weeks in a row",
        then: "the next is easy",
        number: 3.0 "weeks" (1.0 to 3.0),
        source: PRACTICE,
        en: "After some weeks of work comes an easy one.",
        es: "Tras unas semanas de trabajo viene una suave.",
    }
    EasyWeekShare "easy-week-share" {
        when: "a week is easy",
        then: "this share of the last normal week, nothing hard",
        number: 70.0 "percent" (40.0 to 85.0),
        source: PRACTICE,
        en: "An easy week is clearly less, with nothing hard in it.",
        es: "Una semana suave es claramente menos, sin nada fuerte.",
    }
    HardDaysApart "hard-days-apart" {
        when: "hard sessions are set",
        then: "at least this many days from one to the next",
        number: 2.0 "days" (2.0 to 4.0),
        source: PRACTICE,
        en: "Hard days don't follow each other.",
        es: "Los días fuertes no van seguidos.",
    }
    HardDaysApartOlder "hard-days-apart-older" {
        when: "they want more time between hard days",
        then: "at least this many days from one hard session to the next",
        number: 3.0 "days" (2.0 to 5.0),
        source: PRACTICE,
        en: "Hard days lie well apart.",
        es: "Los días fuertes van bien separados.",
    }
    RetestAfter "retest-after" {
        when: "the last test is this old",
        then: "the next fresh day holds a test",
        number: 35.0 "days" (21.0 to 56.0),
        source: "common practice, no source: every four to six weeks",
        en: "Targets are renewed by a test every few weeks.",
        es: "Los objetivos se renuevan con un test cada pocas semanas.",
    }
    SecondTestAfter "second-test-after" {
        when: "there is one test only, this many days old",
        then: "a test over the other distance, which sharpens the paces most",
        number: 7.0 "days" (3.0 to 28.0),
        source: PRACTICE,
        en: "A second distance tells far more than the same one again.",
        es: "Una segunda distancia dice mucho más que repetir la misma.",
    }

    // Towards a race.
    TaperDays "taper-days" {
        when: "a race is this near and they swim three times a week or fewer",
        then: "a taper: the same days, less distance, short pieces at race pace",
        number: 10.0 "days" (5.0 to 21.0),
        source: PRACTICE,
        en: "The last days before a race are less and sharp.",
        es: "Los últimos días antes de la prueba: menos y vivo.",
    }
    TaperDaysMany "taper-days-many" {
        when: "a race is this near and they swim four times a week or more",
        then: "a taper",
        number: 14.0 "days" (7.0 to 28.0),
        source: "two weeks had the largest effect: Bosquet et al. 2007, Med Sci Sports Exerc 39:1358-1365",
        en: "The last weeks before a race are less and sharp.",
        es: "Las últimas semanas antes de la prueba: menos y vivo.",
    }
    TaperShare "taper-share" {
        when: "a taper with three swims a week or fewer",
        then: "this share of the usual distance",
        number: 67.0 "percent" (40.0 to 90.0),
        source: PRACTICE,
        en: "Distance comes off before a race, the pace stays.",
        es: "Antes de la prueba baja la distancia, el ritmo se queda.",
    }
    TaperShareMany "taper-share-many" {
        when: "a taper with four swims a week or more",
        then: "this share of the usual distance",
        number: 50.0 "percent" (30.0 to 80.0),
        source: "41 to 60 percent off, pace kept: Bosquet et al. 2007; Wang et al. 2023, PLoS ONE 18(5):e0282838",
        en: "Much of the distance comes off before a race, the pace stays.",
        es: "Antes de la prueba baja mucho la distancia, el ritmo se queda.",
    }
    RaceEve "race-eve" {
        when: "a race is nearer than this",
        then: "nothing hard",
        number: 3.0 "days" (1.0 to 7.0),
        source: PRACTICE,
        en: "The last days before a race hold nothing hard.",
        es: "Los últimos días antes de la prueba, nada fuerte.",
    }
    RaceRhythm "race-rhythm" {
        when: "a race lies within four weeks",
        then: "the first hard session of a week rehearses it",
        source: PRACTICE,
        en: "Near a race its rhythm comes first.",
        es: "Cerca de la prueba, primero su ritmo.",
    }
    RecoverDays "recover-days" {
        when: "a race was swum this many days ago or fewer",
        then: "easy",
        number: 7.0 "days" (2.0 to 21.0),
        source: PRACTICE,
        en: "A race is followed by easy days.",
        es: "Tras una prueba vienen días suaves.",
    }
    RecoverDaysShort "recover-days-short" {
        when: "a race under 800 was swum this many days ago or fewer",
        then: "easy",
        number: 3.0 "days" (1.0 to 14.0),
        source: PRACTICE,
        en: "A short race is followed by some easy days.",
        es: "Tras una prueba corta vienen unos días suaves.",
    }
    RaceDay "race-day" {
        when: "it is the day of a race, and nothing is open",
        then: "a warm-up for the race, its pace met twice, and nothing else",
        source: PRACTICE,
        en: "Race day is race day: the warm-up, the race, an easy swim after it.",
        es: "El día de la prueba: calentar, competir y nadar suave después.",
    }
    GainPerWeek "gain-per-week" {
        when: "a goal is judged",
        then: "each week of training until the race is taken to bring this much",
        number: 0.15 "percent" (0.0 to 0.5),
        source: OURS,
        en: "A few weeks of training move a time by a percent or two, not more.",
        es: "Unas semanas de entreno mueven un tiempo un uno o dos por ciento.",
    }
    GainWeeks "gain-weeks" {
        when: "a goal is judged",
        then: "at most this many weeks are counted",
        number: 16.0 "weeks" (4.0 to 52.0),
        source: OURS,
        en: "Further ahead than some months nobody can tell.",
        es: "Más allá de unos meses nadie puede decirlo.",
    }
    TaperGain "taper-gain" {
        when: "a goal is judged and there is time for a taper",
        then: "the taper is taken to bring this much",
        number: 1.5 "percent" (0.0 to 4.0),
        source: "half of the 3 percent (0.5 to 6.0) of Mujika & Padilla 2003, Med Sci Sports Exerc 35:1182-1187, who trained more",
        en: "A taper brings a percent or two.",
        es: "La puesta a punto da un uno o dos por ciento.",
    }

    // Age, never given as a reason.
    GentlerFromAge "gentler-from-age" {
        when: "they are this old",
        then: "a longer warm-up, more days between hard ones; never said",
        number: 60.0 "years" (40.0 to 120.0),
        source: PRACTICE,
        en: "Hard days get time to settle.",
        es: "Los días fuertes tienen tiempo para asentarse.",
    }
    GentlerBelowAge "gentler-below-age" {
        when: "they are younger than this",
        then: "the low end of every dose and of the hard share",
        number: 16.0 "years" (0.0 to 18.0),
        source: PRACTICE,
        en: "Doses start low.",
        es: "Las dosis empiezan bajas.",
    }

    // The session.
    BookedLess "booked-less" {
        when: "minutes are booked",
        then: "this many fewer are planned",
        number: 5.0 "min" (0.0 to 15.0),
        source: PRACTICE,
        en: "A few of the booked minutes go on getting in and out.",
        es: "Unos minutos de la reserva se van en entrar y salir.",
    }
    WarmUpShare "warm-up-share" {
        when: "a session is written",
        then: "the warm-up is at least this share",
        number: 15.0 "percent" (10.0 to 40.0),
        source: PRACTICE,
        en: "The warm-up comes first and is never short.",
        es: "El calentamiento va primero y nunca es corto.",
    }
    WarmUpShareSpeed "warm-up-share-speed" {
        when: "the main set is fast",
        then: "the warm-up is at least this share",
        number: 25.0 "percent" (15.0 to 50.0),
        source: PRACTICE,
        en: "Fast swimming wants a long warm-up.",
        es: "Nadar rápido pide un calentamiento largo.",
    }
    WarmUpShareOlder "warm-up-share-older" {
        when: "they want a longer warm-up",
        then: "the warm-up is at least this share",
        number: 20.0 "percent" (15.0 to 50.0),
        source: PRACTICE,
        en: "A longer warm-up before anything fast.",
        es: "Un calentamiento más largo antes de lo rápido.",
    }
    SwimDownShare "swim-down-share" {
        when: "a session is written",
        then: "the swim-down is at least this share",
        number: 6.0 "percent" (4.0 to 20.0),
        source: OURS,
        en: "The swim-down is never cut.",
        es: "La vuelta a la calma no se recorta.",
    }
    MainShare "main-share" {
        when: "a session is written that is not there to recover",
        then: "its main part is at least this share; warm-up and swim-down shrink first",
        number: 40.0 "percent" (25.0 to 60.0),
        source: PRACTICE,
        en: "The main part is a good part of the swim.",
        es: "La parte principal es buena parte del entreno.",
    }
    HardShareThreshold "hard-share-threshold" {
        when: "the main set is threshold",
        then: "hard swimming is at most this share",
        number: 50.0 "percent" (20.0 to 60.0),
        source: PRACTICE,
        en: "Only a part of a threshold swim is hard.",
        es: "Solo una parte de un entreno de umbral es fuerte.",
    }
    HardShareReturner "hard-share-returner" {
        when: "they have few swims behind them",
        then: "hard swimming is at most this share",
        number: 30.0 "percent" (10.0 to 40.0),
        source: PRACTICE,
        en: "While you are building up, only a small part is hard.",
        es: "Mientras coges base, solo una parte pequeña es fuerte.",
    }
    HardShareRace "hard-share-race" {
        when: "the main set is at race pace",
        then: "hard swimming is at most this share",
        number: 25.0 "percent" (10.0 to 40.0),
        source: PRACTICE,
        en: "Race pace is a small part of the swim.",
        es: "El ritmo de prueba es una parte pequeña del entreno.",
    }
    DoseMinutes "dose-minutes" {
        when: "a hard or steady set is written",
        then: "its size is counted in minutes of swimming at its level",
        source: PRACTICE,
        en: "The dose is minutes at the pace, so it fits slow and fast alike.",
        es: "La dosis son minutos al ritmo, vale para lentos y rápidos.",
    }
    SlowHalf "slow-half" {
        when: "a threshold set is written from one test",
        then: "the pace is this percent of the critical speed",
        number: 98.0 "percent" (95.5 to 99.5),
        source: OURS,
        en: "One test can't say it exactly, so threshold starts on the slow side.",
        es: "Un solo test no lo dice exacto: el umbral empieza por el lado lento.",
    }
    EvenPace "even-pace" {
        when: "a pace-holding set is written",
        then: "its target is the even pace of the last test",
        source: PRACTICE,
        en: "The pace is the even pace of your test.",
        es: "El ritmo es el ritmo uniforme de tu test.",
    }
    NoThreshold "no-threshold" {
        when: "only a 50 or a 100 was tested",
        then: "no threshold is guessed: short fast repeats, and a 400 or 200 to test",
        source: PRACTICE,
        en: "A 50 or 100 says nothing of threshold; a 400 would.",
        es: "Un 50 o 100 no dice nada del umbral; un 400 sí.",
    }
    OpenWater "open-water" {
        when: "they swim in open water",
        then: "easy and steady swims, never alone",
        source: "after the rule never to swim alone (US federation safety meeting 2015)",
        en: "Open water: never alone, a bright cap and float, easy and steady.",
        es: "Aguas abiertas: nunca a solas, gorro y boya visibles, suave y constante.",
    }

    // What a result changes.
    StepRepeats "step-repeats" {
        when: "a set was held",
        then: "at most this much more repeats, and never more than two",
        number: 25.0 "percent" (10.0 to 50.0),
        source: PRACTICE,
        en: "Held: a repeat or two more.",
        es: "Aguantado: una o dos repeticiones más.",
    }
    HeldJust "held-just" {
        when: "a set was held, but on the mean near the edge",
        then: "the same set again",
        source: PRACTICE,
        en: "Held, but with nothing to spare: the same once more before it grows.",
        es: "Aguantado, pero justo: lo mismo otra vez antes de crecer.",
    }
    SameAgain "same-again" {
        when: "a set was held and a step more fits no session of theirs",
        then: "the same set again",
        source: OURS,
        en: "Held; a step more fits none of your sessions yet, so the same again.",
        es: "Aguantado; un paso más no cabe aún en tus entrenos: lo mismo otra vez.",
    }
    CutShort "cut-short" {
        when: "less than this share of what was meant was swum",
        then: "what was swum is the measure of the next session",
        number: 75.0 "percent" (50.0 to 95.0),
        source: PRACTICE,
        en: "What you managed last time is the measure of the next.",
        es: "Lo que pudiste la última vez es la medida de la siguiente.",
    }
    HighEffort "high-effort" {
        when: "the last swim felt this hard or harder",
        then: "the next is a step shorter, and easy after one near the top of the scale",
        number: 8.0 "of 10" (6.0 to 10.0),
        source: PRACTICE,
        en: "The last swim felt very hard, so the next is a step less.",
        es: "El último entreno se hizo muy duro: el siguiente, un paso menos.",
    }
    NoRoom "no-room" {
        when: "a hard set or a test does not fit the minutes, the distance and the hard share",
        then: "an easy session",
        source: OURS,
        en: "A hard set worth its name has no room in this one, so it is easy.",
        es: "Una serie fuerte que valga la pena no cabe en este, así que es suave.",
    }
    AskedEasier "asked-easier" {
        when: "they ask for something easier",
        then: "a level down",
        source: OURS,
        en: "You asked for something easier.",
        es: "Pediste algo más suave.",
    }
    Unbroken "unbroken" {
        when: "they can swim only so far without a stop, under 200",
        then: "no longer repeat and nothing hard; after this many days the next longer distance is tried",
        number: 10.0 "days" (4.0 to 28.0),
        source: PRACTICE,
        en: "You swim so far without a stop for now: repeats stay within it, and it grows first.",
        es: "De momento nadas eso sin parar: las repeticiones no pasan de ahí, y eso crece primero.",
    }
    MostASession "most-a-session" {
        when: "they say how much a session may be",
        then: "no more than that",
        source: PRACTICE,
        en: "No more than you said a session may be.",
        es: "No más de lo que dijiste que puede ser un entreno.",
    }
    Tired "tired" {
        when: "they said that they slept badly or are worn out, and would swim within this many days",
        then: "that swim is a step shorter, and holds nothing hard",
        number: 1.0 "days" (0.0 to 3.0),
        source: PRACTICE,
        en: "You said you were tired, so this one is shorter and easy.",
        es: "Dijiste que estabas cansado: este es más corto y suave.",
    }
    Promised "promised" {
        when: "the last set led to one for the next hard swim",
        then: "that set is its main set, before anything else that is due",
        source: OURS,
        en: "It is the set that your last one led to.",
        es: "Es la serie a la que llevó la última.",
    }
    StepSendOffShorter "step-send-off-shorter" {
        when: "a set was held and needs no more repeats",
        then: "the send-off is this much shorter",
        number: 5.0 "s" (5.0 to 15.0),
        source: PRACTICE,
        en: "Held: a little less rest.",
        es: "Aguantado: un poco menos de descanso.",
    }
    StepSendOffLonger "step-send-off-longer" {
        when: "the pace faded from the first half on",
        then: "the send-off is this much longer",
        number: 10.0 "s" (5.0 to 30.0),
        source: PRACTICE,
        en: "The pace faded early: more rest, same pace.",
        es: "El ritmo cayó pronto: más descanso, mismo ritmo.",
    }
    LastQuarter "last-quarter" {
        when: "the pace was lost only in the last part, this share of the set",
        then: "fewer repeats, down to those held",
        number: 25.0 "percent" (10.0 to 50.0),
        source: PRACTICE,
        en: "The pace went only at the end: fewer repeats, same pace.",
        es: "El ritmo se fue solo al final: menos repeticiones, mismo ritmo.",
    }
    FewestRepeats "fewest-repeats" {
        when: "repeats are taken off",
        then: "never below this share of the set",
        number: 50.0 "percent" (25.0 to 90.0),
        source: PRACTICE,
        en: "A set is only ever cut so far.",
        es: "Una serie se recorta solo hasta cierto punto.",
    }
    CutBacks "cut-backs" {
        when: "this many cut-backs running on the same target",
        then: "the target is stale: test again, threshold meanwhile",
        number: 2.0 "sets" (2.0 to 4.0),
        source: PRACTICE,
        en: "Cut back again on the same target: it is stale, test again.",
        es: "Otro recorte con el mismo objetivo: está viejo, repite el test.",
    }
    FasterStep "faster-step" {
        when: "a target may be raised",
        then: "by at most this much",
        number: 1.0 "percent" (0.2 to 2.0),
        source: PRACTICE,
        en: "A target gets faster in very small steps.",
        es: "Un objetivo mejora en pasos muy pequeños.",
    }
    HeldBeforeFaster "held-before-faster" {
        when: "this many sets were held in a row on one target",
        then: "the target may be raised",
        number: 2.0 "sets" (2.0 to 5.0),
        source: PRACTICE,
        en: "A faster target needs sets held in a row, or a new test.",
        es: "Un objetivo más rápido pide series aguantadas seguidas o un test nuevo.",
    }
    FastStart "fast-start" {
        when: "the first two were far too fast",
        then: "the same set, started on the target",
        source: PRACTICE,
        en: "You went out too fast: same set, start on the pace.",
        es: "Saliste muy rápido: la misma serie, empieza al ritmo.",
    }
    LostFromFirst "lost-from-first" {
        when: "the pace was lost from the first repeat",
        then: "the set stays; rest, and a word about sleep and health",
        source: PRACTICE,
        en: "The pace was not there today: rest, and tell us how you are.",
        es: "Hoy el ritmo no estaba: descansa y cuéntanos como estás.",
    }
    NothingRaised "nothing-raised" {
        when: "pain, illness or a hold is open",
        then: "nothing is raised",
        source: OURS,
        en: "Nothing goes up while something hurts.",
        es: "Nada sube mientras algo duele.",
    }
    SlowerIsFine "slower-is-fine" {
        when: "the set was easy, steady or technique",
        then: "slower is fine",
        source: PRACTICE,
        en: "Easy and technique swims may always be slower.",
        es: "Lo suave y la técnica siempre pueden ir más lentos.",
    }
    NotHarder "not-harder" {
        when: "harder is asked for and a rule above stands against it",
        then: "the session stays as it was",
        source: OURS,
        en: "Harder is not on today.",
        es: "Hoy no toca más fuerte.",
    }
}
