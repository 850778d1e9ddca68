//! The squad's page.

use super::Spanish;
use super::words::place_in;
use crate::reply::Trend;
use crate::reply::phrases::{Boards, Label, count};

impl Boards for Spanish {
    fn label(&self, label: Label) -> &'static str {
        match label {
            Label::Board => "Pizarra",
            Label::Hurting => "Fuera o con dolor ahora",
            Label::TonightsRegister => "Lista de hoy",
            Label::Register => "Lista",
            Label::Lanes => "Calles",
            Label::Clock => "La serie entera",
            Label::Paced => "Ultima serie a ritmo",
            Label::Tests => "Tests",
            Label::Weeks => "Las últimas cuatro semanas",
            Label::Focus => "Foco y próxima fecha",
            Label::All => "Todos:",
            Label::ToDo => "Por hacer",
            Label::NothingToDo => "Nada te espera.",
            Label::Owed => "Deben un test",
            Label::Overdue => "Test atrasado",
            Label::Slower => "Más lentos que antes",
            Label::Waiting => "Planes esperan tu sí: escribe EQUIPO PENDIENTES",
            Label::Before => "antes",
            Label::NobodyHurting => "Nadie está parado ni con dolor.",
            Label::Unheard => {
                "Un aviso de peligro no ha llegado a nadie. Mira abajo quien no puede nadar."
            }
            Label::Stopped => "Parado: fuera del agua",
            Label::OutToday => "hoy no nada",
            Label::SwimsEasy => "nada suave",
            Label::HeldEasy => "por el entrenador",
            Label::Ill => "enfermo",
            Label::Fever => "enfermo, con fiebre",
            Label::NoLevel => "sin nivel",
            Label::MaySwim => "Ahora",
            Label::Until => "Hasta que",
            Label::Call => "Llamar a su contacto",
            Label::Here => "Presentes",
            Label::Late => "Tarde",
            Label::NotYet => "tarde",
            Label::Coming => "Esperados",
            Label::Unsaid => "Sin noticias",
            Label::Out => "No vienen",
            Label::Absent => "Buscados, no están",
            Label::Guest => "invitado",
            Label::NoLanes => "Sin calles repartidas. Escribe CALLES 4.",
            Label::EmptyLane => "vacía",
            Label::InNoLane => "Presentes, sin calle",
            Label::Guessed => "ritmo supuesto",
            Label::Gently => "suave",
            Label::NoSet => "Todavía sin serie. Escribe PLAN HOY, o SERIE y lo que se nada.",
            Label::Starts => "Empieza",
            Label::Ends => "Acaba",
            Label::MinutesLeft => "min quedan",
            Label::SetEnds => "serie hasta",
            Label::NoStart => "Falta la hora. Escribe TURNO MARTES 2000-2100 4 CALLES.",
            Label::BookedTo => "reserva hasta",
            Label::NextLeaves => "sale",
            Label::ToHold => "A mantener:",
            Label::OwnTimes => "junto al nombre, su tiempo",
            Label::Minor => "menor",
            Label::CareHow => "Qué nada cada uno",
            Label::Pause => "No actualizar",
            Label::GoOn => "Actualizar",
            Label::Old => "En pausa: esto es de hace {}.",
            Label::Lost => "El servidor no contesta: esto es de hace {}.",
            Label::CoachSheet => "hoja del entrenador",
            Label::TestDue => "le toca test",
            Label::Day => "día",
            Label::Test => "test",
            Label::Verdict => "frente al último",
            Label::CriticalPace => "ritmo crítico por 100, con su margen",
            Label::Pace => "ritmo crítico",
            Label::WeekFrom => "semana del",
            Label::Swum => "nadado",
            Label::Load => "esfuerzo x min",
            Label::Marks => "marcas",
            Label::Pain => "dolor",
            Label::Number => "repetición",
            Label::Time => "tiempo",
            Label::Beside => "más lento",
            Label::Next => "Próximo entreno",
            Label::NoNext => "Ahora no hay ninguno. El texto SIGUIENTE da uno.",
            Label::Days => "Propuesto y nadado",
            Label::NoDays => "Nada propuesto ni nadado en cuatro semanas.",
            Label::Offered => "propuesto",
            Label::Presumed => "según la lista",
            Label::Back => "Volver a la pizarra",
            Label::Take => "Para llevar",
            Label::TakeHow => "Nada de la salud de nadie. Mientras esta página esté abierta.",
            Label::Calendar => "Un calendario que dura",
            Label::CalendarHow => {
                "Una dirección para tu calendario: noches, carreras y entrenos, al día. Quien la tiene los ve."
            }
            Label::CalendarOnce => "Cópiala ahora: sólo se muestra esta vez.",
            Label::CalendarOpen => "Abrir uno",
            Label::CalendarRenew => "Otra dirección; la de antes se cierra",
            Label::CalendarShut => "Cerrarlo",
            Label::Prints => "Impresa, esta página da una hoja por calle y una para el entrenador.",
            Label::Over => "Todo nadado.",
            Label::NothingPaced => "Ninguna serie con ritmo en cuatro semanas.",
            Label::NoTest => "sin test",
            Label::Due => "Le toca",
            Label::DueTestNight => "Le toca: faltó a la noche de test",
            Label::NoSwimmers => "Aún no nada nadie aquí. Escriben UNIR, el código y un nombre.",
            Label::Came => "Vino",
            Label::Reported => "Contó",
            Label::ByWeek => "Semana a semana",
            Label::Planned => "previsto",
            Label::Away => "fuera",
            Label::Ring => "Llamar: sin noticias",
            Label::Jumped => "Salto de metros",
            Label::NothingAhead => "Sin foco, nota ni carrera. Escribe FOCO HERON: CUELLO LARGO.",
            Label::Note => "Nota",
            Label::Race => "Carrera",
            Label::Shut => "Esta pizarra está cerrada",
            Label::ShutHow => "Escribe PIZARRA y te damos otra dirección, para 12 horas.",
            Label::Unavailable => "Ahora no se puede",
            Label::UnavailableHow => "Esta página lo intenta otra vez sola.",
        }
    }

    fn as_of(&self, time: &str) -> String {
        format!("a las {time}")
    }

    fn no_paddles(&self) -> &'static str {
        "sin palas"
    }

    fn no_swimming(&self) -> &'static str {
        "no nada"
    }

    fn easy_version(&self) -> &'static str {
        "nada la versión suave"
    }

    fn stop_for_today(&self) -> &'static str {
        "por hoy basta; la próxima sesión es menor"
    }

    fn since(&self, when: &str) -> String {
        format!("desde {when}")
    }

    fn hurts(&self, place: &str) -> String {
        place_in(place).unwrap_or("dolor").to_owned()
    }

    fn of_ten(&self, level: u8) -> String {
        format!("{level} de 10")
    }

    fn released_by(&self, you: bool, who: &str) -> String {
        if you {
            format!("tú escribas LIBERA {who}")
        } else {
            "lo libere el entrenador".to_owned()
        }
    }

    fn clinicians_word(&self, said: bool) -> &'static str {
        if said { "dice que un médico da el alta" } else { "aún sin palabra del médico" }
    }

    fn guardians_word(&self, said: bool) -> &'static str {
        if said { "el tutor está de acuerdo" } else { "el tutor aún no ha dicho que sí" }
    }

    fn ends_it_alone(&self) -> &'static str {
        "escriba MEJOR"
    }

    fn minor(&self, adult: Option<&str>) -> String {
        match adult {
            Some(adult) => format!("menor: responde {adult}"),
            None => "menor: responde su tutor".to_owned(),
        }
    }

    fn minor_alone(&self) -> &'static str {
        "menor: sin tutor de acuerdo"
    }

    fn minutes_late(&self, minutes: u16) -> String {
        format!("{minutes} min tarde")
    }

    fn gap(&self, seconds: u32) -> String {
        format!("cada {seconds} s")
    }

    fn head_count(&self, here: usize, of: usize) -> String {
        format!("{here} de {of} en la piscina")
    }

    fn nth_of(&self, number: u16) -> String {
        format!("{number}.\u{aa} de")
    }

    fn round_of(&self, round: u16, of: u16) -> String {
        format!("vuelta {round} de {of}")
    }

    fn over_by(&self, minutes: u32) -> String {
        format!("sobran {minutes} min")
    }

    fn held_of(&self, held: usize, of: usize) -> String {
        format!("{held} de {of} a ritmo")
    }

    fn verdict(&self, trend: Trend) -> &'static str {
        match trend {
            Trend::Up => "más rápido, un cambio real",
            Trend::Down => "más lento, un cambio real",
            Trend::Flat => "demasiado cerca para decir",
            Trend::Unknown => "el primero así",
        }
    }

    fn nights(&self, came: usize, of: usize) -> String {
        format!("{came} de {}", count(of, "noche", "noches"))
    }

    fn days(&self, number: usize) -> String {
        count(number, "día", "días")
    }
}
