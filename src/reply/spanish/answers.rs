//! Acknowledgements, questions, refusals, help.

use super::Spanish;
use crate::coaching::{RefusalReason, Rule};
use crate::message::{Doubt, Name, Wants};
use crate::reply::phrases::{
    Answers, Approvals, Belongings, Care, Limited, Offices, Safeguards, Timetables, Weeklies,
    Words, canonical, first_upper, quoted,
};
use crate::reply::{Asks, OkReply, RefusedWhy, Set, Topic, Unread, Withdrawn};
use crate::swim::why::{Explanation, Source, Sureness};
use crate::units::{Pace, Start, Unit};

impl Answers for Spanish {
    fn welcome(&self, name: &Name, squad: &str) -> String {
        format!("¡Hola, {name}! Ya estas en {squad}.")
    }

    fn readiness(&self, questions: bool) -> &'static str {
        if questions {
            "Todo sera suave hasta responder tres preguntas de salud; los resultados cuentan desde \
             ya."
        } else {
            "Hasta que tu entrenador te dé paso, todo sera suave: cuéntale si hay problemas de \
             corazon, pecho, desmayos o respiracion, medicinas o una pausa larga."
        }
    }

    fn readiness_question(&self, question: u8) -> &'static str {
        match question {
            1 => "1 de 3: ¿llevas tres meses o mas sin ejercicio regular? SI o NO.",
            2 => {
                "2 de 3: ¿problemas de corazon, pecho, desmayos o respiracion, o medicinas para \
                 ello? SI o NO."
            }
            _ => {
                "3 de 3: ¿te han dicho que no nades fuerte, o hay un motivo para no hacerlo? SI o NO."
            }
        }
    }

    fn first_steps(&self) -> [&'static str; 2] {
        [
            "Cuando quieras, nada 200 o 400 a ritmo uniforme y escribe: 200 test 3:12",
            "AYUDA dice qué mas puedes escribir. Primero van las normas de la piscina y el \
             socorrista.",
        ]
    }

    fn of_day(&self, what: &str, day: &str) -> String {
        format!("{what} del {day}")
    }

    fn session_taken_back(&self) -> &'static str {
        "entreno"
    }

    fn register_taken_back(&self) -> &'static str {
        "lista"
    }

    fn squad_set_taken_back(&self) -> &'static str {
        "la serie"
    }

    fn evening_taken_back(&self, what: &Withdrawn) -> &'static str {
        match what {
            Withdrawn::SetChange(_) => "el cambio de la serie",
            Withdrawn::Lanes(_) => "el cambio de calles",
            Withdrawn::Shut(_) => "piscina cerrada, turno",
            Withdrawn::Night(_) => "el cambio del turno",
            Withdrawn::Timetable => "el cambio de los turnos de cada semana",
            Withdrawn::Digest => "lo dicho del resumen semanal",
            Withdrawn::Note => "lo dicho de la nota semanal",
            _ => self.change_taken_back(),
        }
    }

    fn as_before(&self, trial: &str) -> String {
        format!("{trial} vale otra vez")
    }

    fn results_taken_back(&self, number: usize, names: &str) -> String {
        format!("{number} resultados: {names}")
    }

    fn repeat_put_right(&self, number: usize, was: &str, now: &str) -> String {
        format!("el {number} ahora {now} (antes {was})")
    }

    fn change_taken_back(&self) -> &'static str {
        "tu ultimo cambio"
    }

    fn done_so(&self, reply: &OkReply) -> String {
        match reply {
            OkReply::Profile(set) => {
                format!("Guardado: {}.", set.iter().map(setting).collect::<Vec<_>>().join(", "))
            }
            OkReply::Belonging(done) => self.belongs(done),
            OkReply::Board { url, hours } => {
                format!("{url} - tu pizarra, {hours} horas. Es tuya y de nadie mas: no la pases.")
            }
            OkReply::Undone { what } => format!("Deshecho: {}.", self.taken_back(what)),
            OkReply::Fixed { who, trial, before } => format!(
                "Corregido: {}{} (antes {}), {}.",
                who.as_ref().map_or_else(String::new, |who| format!("{who} ")),
                self.trial(trial),
                before.short(),
                self.short_day(trial.on)
            ),
            OkReply::ResultsSwapped { now: [(one, first), (other, second)] } => format!(
                "Cambiado: {} {} y {} {}. CAMBIA otra vez lo deshace.",
                one,
                self.trial(first),
                other,
                self.trial(second)
            ),
            OkReply::Told { who: Some(who), .. } => format!("Enviado a {who}."),
            OkReply::Told { number, left_out, .. } if left_out.is_empty() => {
                format!("Enviado a {number} nadadores.")
            }
            OkReply::Told { number, left_out, .. } => format!(
                "Enviado a {number} nadadores. Menores sin tutor y otro adulto que lo lean, asi que sin \
                 enviar: {}.",
                left_out.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
            ),
            OkReply::Moved { to } => format!("Pasado a {to}."),
            OkReply::Missed { on } => {
                format!(
                    "Anotado: {} sin nadar. No hace falta recuperarlo, ve al siguiente.",
                    self.day(*on)
                )
            }
            OkReply::Away { from, until } => {
                let from =
                    from.map_or(String::new(), |from| format!(" desde el {}", self.day(from)));
                let until = self.day(*until);
                format!("Anotado: fuera{from} hasta el {until}. Volveras poco a poco.")
            }
            OkReply::Better { from: Some(from) } => format!(
                "¡Qué bien! Primero dias de descanso: no entrenes antes del {}; luego empieza suave.",
                self.day(*from)
            ),
            OkReply::Better { from: None } => {
                "¡Qué bien! El proximo entreno empieza suave; escribe SIGUIENTE para verlo."
                    .to_owned()
            }
            OkReply::Swapped { days } => {
                format!("Cambiado. Tus dias ahora: {}.", self.days_and_hard_ones(days))
            }
            OkReply::Race { on, distance } => {
                format!("Anotado: carrera de {distance} el {}.", self.day(*on))
            }
            OkReply::Pinned { who, lane: Some(lane) } => {
                format!("{who} nada en la C{lane} desde ahora.")
            }
            OkReply::Pinned { who, lane: None } => {
                format!("{who} va otra vez por ritmo.")
            }
            OkReply::Parted { names, apart } => {
                let names: Vec<String> = names.iter().map(ToString::to_string).collect();
                let share = if *apart { "no comparten" } else { "pueden compartir" };
                format!("{} {share} calle desde ahora.", self.all_of(&names))
            }
            OkReply::NamesInRooms { shown: true } => {
                "El chat puede oir quien nada en que calle y que nada; nada mas de nadie. SIN \
                 NOMBRES EN EL CHAT lo termina."
                    .into()
            }
            OkReply::NamesInRooms { shown: false } => "Ya no hay nombres en el chat.".into(),
            OkReply::NotTonight { who, on, done } => {
                let (day, who) = (self.day(*on), who.as_ref().map(Name::as_str));
                match (who, done) {
                    (None, true) => format!("Ya dijiste lo que nadaste el {day}: eso fue todo."),
                    (Some(who), true) => format!("{who} ha terminado el {day}."),
                    (None, false) => format!("El {day} no vienes. Escribe VOY si vienes."),
                    (Some(who), false) => format!("{who} no viene el {day}."),
                }
            }
            OkReply::Remarked { of: None, text } => format!("Anotado: {text}."),
            OkReply::Remarked { of: Some(who), text } => format!("Anotado para {who}: {text}."),
            OkReply::Able { of, ability } => {
                let of = of.as_ref().map_or_else(String::new, |who| format!(" para {who}"));
                let unbroken = ability.unbroken.map(|far| {
                    format!(
                        "{far} sin parar, anotado{of}: ninguna repeticion pasa de ahi, ni el \
                         primer test. Crece paso a paso."
                    )
                });
                let most =
                    ability.most.map(|far| format!("Como mucho {far} por entreno, anotado{of}."));
                unbroken.into_iter().chain(most).collect::<Vec<_>>().join(" ")
            }
            OkReply::Tired { of: None } => {
                "Anotado; dormir va primero. Si nadas hoy o mañana: suave, y un paso menos. \
                 SIGUIENTE lo muestra."
                    .to_owned()
            }
            OkReply::Tired { of: Some(who) } => {
                format!("Anotado: {who} arrastra cansancio. Hoy y mañana suave, y un paso menos.")
            }
            OkReply::NotKnown => {
                "Eso no lo sé; preguntale a tu coach. Sé de SIGUIENTE, OBJETIVOS, MARCAS, \
                 PROGRESO, REGISTRO."
                    .to_owned()
            }
            OkReply::Noted { who } => format!("Anotado para {who}."),
            OkReply::Held { who } => format!("{who} va en suave hasta que escribas LIBERA {who}."),
            OkReply::Released { who, on_word: true, .. } => format!(
                "{who} puede volver, bajo tu palabra de que un médico lo ha autorizado; empieza \
                 suave. Si no es asi, que {who} siga fuera del agua."
            ),
            OkReply::ClearanceNoted => {
                "Anotado, y tu entrenador lo sabe. Fuera del agua hasta que te dé paso por mensaje."
                    .to_owned()
            }
            OkReply::Released { who, cleared: true, .. } => {
                format!("{who} tiene paso libre: los entrenos pueden subir, poco a poco.")
            }
            OkReply::ReadinessAnswered { clear: true } => {
                "Gracias, anotado: puedes ir fuerte cuando el entreno lo diga. Si algo cambia, \
                 avisa antes a tu entrenador."
                    .to_owned()
            }
            OkReply::ReadinessAnswered { clear: false } => {
                "Gracias. Todo sera suave hasta que tu entrenador te dé paso: habla con él o ella \
                 y, en caso de duda, con un médico. Los resultados cuentan igual."
                    .to_owned()
            }
            OkReply::ContactKept => {
                "Guardado. Lo ve tu entrenador si hay peligro, y nadie mas.".to_owned()
            }
            OkReply::Released { who, .. } => {
                format!("{who} puede volver; los proximos entrenos empiezan suaves.")
            }
            OkReply::Greeting => {
                "Hola. Escribe SIGUIENTE para un entreno, AYUDA para lo demas.".to_owned()
            }
            OkReply::Thanks => "De nada. Nos vemos en la piscina.".to_owned(),
            OkReply::EverybodyOut { here: 0 } => {
                "Primero todos fuera del agua, y contar. Nada guardado. A la vuelta: QUEDAN 12 \
                 ajusta la serie al tiempo."
                    .to_owned()
            }
            OkReply::EverybodyOut { here } => format!(
                "Primero todos fuera del agua, y contar: {here} en la lista (LISTA los dice). Nada \
                 guardado. A la vuelta: QUEDAN 12 ajusta la serie al tiempo."
            ),
            OkReply::LeftAlone => "Se queda como estaba; sin guardar.".to_owned(),
            OkReply::Forgotten => {
                "Borrado: mensajes y resultados, y ya no estas en el equipo. Los partes de \
                 accidente y bienestar quedan aparte el tiempo que el club indica."
                    .to_owned()
            }
            OkReply::OptedOut => {
                "Lapwing: ya no recibiras mensajes. Escribe START para volver a recibirlos."
                    .to_owned()
            }
            OkReply::OptedIn => {
                "Lapwing: vuelves a recibir mensajes. AYUDA dice qué puedes escribir.".to_owned()
            }
            OkReply::Attend(_)
            | OkReply::Shut(_)
            | OkReply::Timetable(_)
            | OkReply::Care(_)
            | OkReply::Office(_)
            | OkReply::Joined { .. }
            | OkReply::More { .. }
            | OkReply::Register(_)
            | OkReply::SetChanged(_)
            | OkReply::LanesChanged(_)
            | OkReply::SetFixed(_)
            | OkReply::HeatOf(_)
            | OkReply::TestNight(_)
            | OkReply::Begun(_)
            | OkReply::Entered(_)
            | OkReply::Leg { .. }
            | OkReply::Meet(_)
            | OkReply::Entries(_)
            | OkReply::GivenToDeck
            | OkReply::Known(_)
            | OkReply::Weekly(_)
            | OkReply::Approval(_)
            | OkReply::Limits(_)
            | OkReply::OwnTargets(_)
            | OkReply::Silent => String::new(),
        }
    }

    fn ask(&self, asks: &Asks) -> String {
        match asks {
            Asks::Doubt(doubt) => self::doubt(doubt),
            Asks::Implausible { distance, time } => format!(
                "{distance} en {} son {} por 100: ¿es correcto? Aun sin guardar.",
                time.short(),
                Pace::of(*distance, *time)
            ),
            Asks::Impossible { distance, time } => format!(
                "Leo {distance} en {}, y eso no lo nada nadie. Sin guardar: ¿qué tiempo fue? \
                 Escribe asi: 200 test 3:12",
                time.short()
            ),
            Asks::AnyDanger => {
                "¿Dolor de pecho, desmayo, golpe en la cabeza o falta de aire?".to_owned()
            }
            Asks::TwoReadings { distance, one, other } => {
                format!("{distance}: ¿{} o {}? Aun sin guardar.", one.short(), other.short())
            }
            Asks::ImpossiblePair { new, old } => format!(
                "{} va a mejor ritmo que el {} del {}: ¿es correcto? Aun sin guardar.",
                self.trial(new),
                self.trial(old),
                self.short_day(old.on)
            ),
            Asks::TellAll { text, number } => {
                format!("¿Enviar {} a {number}? No se puede deshacer.", quoted(text))
            }
            Asks::PassOn => "Eso no lo sé. ¿Se lo paso a tu coach?".to_owned(),
            Asks::Of { who, asks } => format!("{who}: {}", self.ask(asks)),
            Asks::WhoIs { name } => format!("Aqui no hay '{name}'. ¿Quién es? Aun sin guardar."),
            Asks::WhoElse { name } => {
                format!("Aqui no hay '{name}', queda sin marcar. ¿Quién es?")
            }
            Asks::Readiness { question } => self.readiness_question(*question).to_owned(),
            Asks::NoTexts { away_until: Some(until) } => {
                format!(
                    "Fuera hasta {}: anotado. ¿Tampoco mensajes, hasta que escribas START?",
                    self.day(*until)
                )
            }
            Asks::NoTexts { away_until: None } => {
                "¿No quieres mas mensajes, hasta que escribas START?".to_owned()
            }
            Asks::Forget => {
                "¿Salir del equipo y borrar todos tus mensajes, tests, series y entrenos? \
                             No se puede deshacer."
                    .to_owned()
            }
            Asks::Leave { squad } => format!(
                "¿Dejar {squad}? No mas mensajes; tus resultados quedan en el equipo. Para \
                 borrarlos tambien escribe OLVIDAME."
            ),
            Asks::Remove { name } => {
                format!("¿Sacar a {name} del equipo? Los resultados quedan.")
            }
            Asks::AnotherPerson { name } => {
                format!("¿Es {name} otra persona con este telefono?")
            }
            Asks::TakeBack { what, singly: true } => {
                format!("Deshacer {}? Un nombre deshace lo suyo.", self.taken_back(what))
            }
            Asks::TakeBack { what, singly: false } => {
                format!("Deshacer {}?", self.taken_back(what))
            }
            Asks::WhichPerson => "¿Quien es? Aun no se guarda nada.".to_owned(),
            Asks::SayWho { names } => {
                let names: Vec<String> = names.iter().map(Name::to_string).collect();
                format!("¿Quien es, {}? No se guarda; empieza por el nombre.", self.one_of(&names))
            }
            Asks::WhichSquad => "¿Para que equipo es? Aun no se guarda nada.".to_owned(),
        }
    }

    fn text_one_of(&self, options: &str) -> String {
        format!("Escribe {options}.")
    }

    fn text_again(&self) -> &'static str {
        "Escribelo otra vez."
    }

    fn option(&self, option: &str) -> String {
        match option {
            "yes" => "SI".to_owned(),
            "done" => "HECHO".to_owned(),
            other => other.to_uppercase(),
        }
    }

    fn refusal(&self, why: &RefusedWhy) -> String {
        match why {
            RefusedWhy::Coaching(reason) => coaching(reason),
            RefusedWhy::CoachOnly => {
                "Eso le toca al entrenador. AYUDA dice qué puedes escribir.".into()
            }
            RefusedWhy::HealthOtherwise => {
                "No lo he pasado: de tu salud habla con tu coach. A mi: DUELE HOMBRO 4 o GRIPE.".into()
            }
            RefusedWhy::NobodyReads => {
                "No puedo pasarlo: tu coach no recibe mensajes. Preguntale en persona.".into()
            }
            RefusedWhy::NotAMember => {
                "Lapwing, ayudante de un equipo de natacion. Aqui no estas en ningun equipo: pide \
                 el codigo al entrenador y escribe, por ejemplo, UNIR CODIGO heron. STOP para no \
                 recibir mensajes."
                    .into()
            }
            RefusedWhy::NotASwimmer => {
                "No nadas en este equipo. Di de quién es (heron 200 test 3:12) o escribe UNIR con \
                 el codigo."
                    .into()
            }
            RefusedWhy::BadCode => {
                "Ese codigo no abre ningun equipo, o ya no vale. Pregunta a tu entrenador.".into()
            }
            RefusedWhy::NameTaken => "Ese nombre ya se usa aqui; elige otro.".into(),
            RefusedWhy::AlreadyIn => "Ese numero ya esta en el equipo.".into(),
            RefusedWhy::SquadFull => "Este equipo esta completo. Pregunta a tu entrenador.".into(),
            RefusedWhy::ManyAskedIn => {
                "Hay muchas invitaciones sin respuesta: espera a que contesten algunas.".into()
            }
            RefusedWhy::LastCoach => {
                "Un equipo necesita quien lo lleve: primero CEDE A quien ayuda, luego DEJO EL \
                 EQUIPO."
                    .into()
            }
            RefusedWhy::NotOnDeck { name } => {
                format!("{name} no lleva ni ayuda aqui; primero INVITA con el numero.")
            }
            RefusedWhy::Care(why) => self.care_refusal(why),
            RefusedWhy::Office(why) => self.office_refusal(why),
            RefusedWhy::Future { on } => {
                format!("Aun no es {}; sin guardar. Si fue hoy, no pongas dia.", self.day(*on))
            }
            RefusedWhy::NoNight { on } => {
                format!(
                    "No hay turno el {}. Para poner uno: turno martes 2000-2100 4 calles",
                    self.day(*on)
                )
            }
            RefusedWhy::NightShut { on, next } => {
                let next = next.as_ref().map(|night| format!(" {}", self.next_night(&self.night_line(night))));
                format!("La piscina esta cerrada el {}.{}", self.day(*on), next.unwrap_or_default())
            }
            RefusedWhy::Unlikely { distance, time } => format!(
                "{distance} en {} no cuadra; sin cambios. Escribe asi: corrige 3:14",
                time.short()
            ),
            RefusedWhy::NoSet => {
                "No hay serie para hoy. Escribe la serie (serie 4x50 suave, 8x50 cada 1:15, 100 \
                 suave) o PLAN HOY."
                    .into()
            }
            RefusedWhy::NoBoard => "La pizarra necesita el servidor, y no esta en marcha.".into(),
            RefusedWhy::NoSetYet => {
                "Todavia no hay serie para hoy. SIGUIENTE te da un entreno tuyo.".into()
            }
            RefusedWhy::NoLane { lane } => format!("Hoy no hay calle {lane}."),
            RefusedWhy::LaneOrder { lane, names } => format!(
                "Calle {lane} hoy: {}. Escribe un resultado por cada nadador en ese orden, x si no \
                 nado. Nada guardado.",
                names.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
            ),
            RefusedWhy::NamesOfMinors => {
                "Hay menores en este grupo: sus nombres no salen en el chat.".into()
            }
            RefusedWhy::NoMainSet => "La serie de hoy no tiene parte principal.".into(),
            RefusedWhy::NoRounds => {
                "La serie de hoy no tiene vueltas. HAZ 6 dice cuantas repeticiones.".into()
            }
            RefusedWhy::NotLaned { name } => {
                format!("{name} no esta hoy en ninguna calle. Sin cambios.")
            }
            RefusedWhy::LaneCount => "¿Cuantas calles hay? Escribe, por ejemplo, CALLES 4.".into(),
            RefusedWhy::NobodyThere => {
                "Nadie que repartir. Di quién ha venido: PRESENTES heron teal".into()
            }
            RefusedWhy::NobodyToTest => {
                "Esa noche no viene nadie, asi que no hay series. Di quién ha venido: PRESENTES heron teal".into()
            }
            RefusedWhy::Nothing => "No hay nada tuyo con lo que hacer eso.".into(),
            RefusedWhy::NoTest => {
                "Aun no hay test del que partir. Haz uno y escribe: 200 test 3:12".into()
            }
            RefusedWhy::NoQuestion => {
                "No hay ninguna pregunta abierta. AYUDA dice qué puedes escribir.".into()
            }
            RefusedWhy::Distance => "Esa distancia no sale en tu piscina.".into(),
            RefusedWhy::SetNames { name } => format!("Eso parece una serie con {name} dentro; no cambia nada. Un resultado va asi: \
                 {name} 400 test 6:50"),
            RefusedWhy::CoachLimit => "Lo ha dicho tu entrenador: lo levanta el.".into(),
            RefusedWhy::SquadLimit { limits } => self.holds_for_all(limits),
            RefusedWhy::LimitsFree => {
                "Lo que se deja fuera se nada a crol, asi que el crol se queda. Qué se deja fuera? \
                 Por ejemplo, SIN MARIPOSA o SIN ALETAS."
                    .into()
            }
            RefusedWhy::Weekly(why) => self.weekly_refusal(*why).to_owned(),
            RefusedWhy::Approval(why) => self.approval_refusal(why),
            RefusedWhy::NotYet => "Lo he leido, pero aun no sé hacerlo; sin guardar.".into(),
            RefusedWhy::Private => "Eso es para un mensaje privado, no para este grupo.".into(),
        }
    }

    fn read_but(&self, understood: &str, what: &str) -> String {
        format!("He leido {understood}, pero {what}")
    }

    fn unread(&self, rest: &Unread) -> String {
        match rest {
            Unread::Words(words) => format!("No entiendo {}.", quoted(words)),
            Unread::Prose { call, .. } => {
                let call = self.call(call.as_deref());
                format!(
                    "No entiendo eso. Dolor o malestar: fuera del agua, socorrista, {call}. Con miedo o en apuros: escribe PREOCUPADO, y nadie lo sabe sino bienestar."
                )
            }
            other => self.but(other),
        }
    }

    fn but(&self, rest: &Unread) -> String {
        match rest {
            Unread::Empty => "ese mensaje estaba vacio.".to_owned(),
            Unread::TooLong => "eso es demasiado largo para mi.".to_owned(),
            Unread::Unsaid => "no lo entiendo todo.".to_owned(),
            Unread::NotText => "eso no era un texto que pueda leer.".to_owned(),
            Unread::Words(words) | Unread::Prose { words, .. } => format!("no {}.", quoted(words)),
        }
    }

    fn like_this(&self, example: &str) -> String {
        format!("Sin guardar. Escribe asi: {example}")
    }

    fn for_a_swimmer(&self) -> &'static [&'static str] {
        &[
            "Escribe: 200 test 3:12 | 8x50 cada 1:15 hice 48 48 49 50 49 49 50 51 | hecho 1500 \
             45min rpe 6 | siguiente | plan | objetivos",
            "vengo | no vengo | duele hombro 4 | gripe | mejor | deshacer. AYUDA TEST, PLAN, DOLOR \
             para mas. Peligro: emergencias. STOP para no recibir mensajes.",
        ]
    }

    fn for_a_coach(&self) -> &'static [&'static str] {
        &[
            "Entrenador: equipo | heron | heron 200 test 3:12 | 200 test: \
             heron 3:12, teal 2:58 | manten heron suave | libera heron | \
             deshacer",
            "AYUDA NOCHE, CALLES, LISTA, NOCHE DE TEST, RESULTADOS, GENTE o HORARIO para mas; AYUDA \
             TEST, SERIE, PLAN, DOLOR. Peligro: emergencias. STOP para no recibir mensajes.",
        ]
    }

    fn for_a_room(&self) -> &'static [&'static str] {
        &[
            "Primero mi nombre: 200 test 3:12 | 4x50 cada 1:15 hice 48 48 49 50 | objetivos",
            "Planes, salud y todo lo tuyo: escribeme en privado, AYUDA.",
        ]
    }

    fn for_a_stranger(&self) -> &'static [&'static str] {
        &["Lapwing, ayudante de un equipo de natacion. Pide al entrenador el codigo del equipo y \
           escribe: UNIR CODIGO heron (tu nombre en vez de heron). Peligro: emergencias. STOP para no recibir \
           mensajes."]
    }

    fn not_stored(&self, asked: &str) -> String {
        format!("Sin guardar, porque quedo sin respuesta: {asked}")
    }

    fn nobody_told(&self) -> &'static str {
        "Tu entrenador no recibe mensajes: avisale tu."
    }

    fn for_who_opted_out(&self) -> &'static [&'static str] {
        &[
            "Lapwing, ayudante de un equipo de natacion. No te manda mensajes, salvo respuestas a un \
           peligro. START para tenerlos otra vez; para lo demas, pregunta al entrenador.",
        ]
    }

    fn on_topic(&self, topic: Topic) -> &'static [&'static str] {
        match topic {
            Topic::Test => {
                &["Un test: la distancia, la palabra test y el tiempo. 200 test 3:12 | test 400 \
                   espalda 7:05.2 ayer | 100 test 1:20 25yd. Para arreglarlo: deshacer, o corrige \
                   3:14."]
            }
            Topic::Set => {
                &["Una serie: 8x50 cada 1:15 hice 48 48 49 50 x 49 50 51 (x es una sin hacer), o: \
                   6x100 cada 2:30 media 1:37"]
            }
            Topic::Done => {
                &["Un entreno: hecho 1500 45min rpe 6. Otro deporte: corri 50min rpe 5."]
            }
            Topic::Plan => &[
                "plan | plan semana suave | plan 3 veces 45min | siguiente | siguiente 30min sin \
                   aletas | mas corto | mas facil | porque",
            ],
            Topic::Pain => {
                &["Escribe duele hombro 4 (de 0 a 10), o gripe; mejor cuando se pase. Dolor de \
                   pecho, desmayo, falta de aire: sal, avisa al socorrista y llama a emergencias, \
                   ya."]
            }
            Topic::Profile => {
                &["piscina 25m, 50m o 25yd | naci 1981 | dias martes jueves | idioma ingles"]
            }
            Topic::Squad => {
                &["equipo | equipo pendientes | equipo lesionados | heron | compara heron teal | \
                   manten heron suave | libera heron | aprobar planes si. AYUDA NOCHE, CALLES, LISTA para la noche."]
            }
            Topic::Register => &[
                "Para ti: vengo | no vengo | 10 tarde",
                "presentes heron teal | todos presentes menos wren | ausente wren | quien viene | \
                 presentes muestra la lista",
            ],
            Topic::Timetable => {
                &["turno martes 2000-2100 4 calles | 3 calles hoy | cerrada el jueves | turno"]
            }
            Topic::Evening => &[
                "plan martes | serie 4x50 suave, 8x50 cada 1:15, 4x25 suave | mi calle",
                "Mientras se nada: quedan 12 | calle 1 haz 6 | calle 2 cada 1:15 | salta una vuelta. Mi \
                 calle dice a cada uno la suya.",
            ],
            Topic::Results => &[
                "200 test: heron 3:12, teal 2:58 | Una calle en orden, x si falta: calle 2 200 test 3:12 3:20 x",
                "corrige heron martes 200 3:21 | cambia heron teal martes 200 | era de teal | \
                 deshacer",
            ],
            Topic::TestNight => &[
                "noche de test 400 jueves | noche de test | equipo por hacer | calle 2 400 test 6:50 7:05 x",
            ],
            Topic::People => &[
                "invita +15550123 ayudante kestrel | suma robin 2:20 | cede a kestrel | quita \
                 kestrel | dejo el equipo",
                "Robin, ya con telefono: reclama CODE-1 | mis equipos",
            ],
            Topic::Lanes => &[
                "calles 4 | heron calle 2 | heron cualquier calle | separa heron teal | junta heron \
                 teal | calles. La calle 1 es la mas rapida.",
            ],
            Topic::Fix => &["deshacer quita tu ultimo resultado | corrige 3:14 | era de teal"],
        }
    }

    fn explanation(&self, explanation: &Explanation) -> String {
        let sure = match &explanation.sureness {
            Sureness::Exact => "exacto".to_owned(),
            Sureness::Band { low, high, .. } => format!("de {low} a {high}"),
            Sureness::RuleOfThumb => "orientativo".to_owned(),
            Sureness::DescribesOnly => "describe, no predice".to_owned(),
        };
        let source = match &explanation.source {
            Source::Arithmetic => "aritmética",
            Source::CommonPractice => CUSTOM,
            Source::Published(text) => text,
            Source::Table(text) => text,
            Source::Ours(_) => OUR_CHOICE,
        };
        format!("{}. Fuente: {source}. Seguro: {sure}.", formula(explanation))
    }

    fn why_set(&self, set: &str, target: &str, from: &str, rest_s: Option<u32>) -> String {
        let rest = rest_s
            .map_or_else(String::new, |rest| format!("; {rest} s de descanso para sostenerlo"));
        format!("{set}: {target} es {from}{rest}.")
    }

    fn pace_of_coach(&self) -> &'static str {
        "el tiempo que fijo tu coach"
    }

    fn pace_of_share(&self, percent: u32, critical: &str) -> String {
        format!("el {percent} % de tu velocidad critica, unos {critical} por 100")
    }

    fn pace_of_race(&self, distance: &str, time: &str, pushed: bool) -> String {
        let pushed = if pushed { " desde la pared" } else { "" };
        format!("el ritmo de tu prueba, {distance} en {time}{pushed}")
    }

    fn pace_of_test(&self, trial: &str, began: Option<Start>) -> String {
        match began {
            Some(Start::Dive) => format!("el ritmo de tu {trial} (de salto), desde la pared"),
            _ => format!("el ritmo uniforme de tu {trial}"),
        }
    }

    fn rule(&self, rule: &Rule) -> String {
        let source = match rule.source {
            custom if custom.starts_with("common practice") => CUSTOM,
            ours if ours.starts_with("ours") => OUR_CHOICE,
            published => published,
        };
        let number = rule
            .number
            .map_or_else(String::new, |one| format!(" {} {}", one.value, counted(one.unit)));
        format!("{} ({}{number}; {source})", self.sentence(rule.reason), rule.id)
    }
}

const CUSTOM: &str = "costumbre del oficio";
const OUR_CHOICE: &str = "eleccion nuestra";

/// What a rule's number counts; signs of units stand as they are.
fn counted(unit: &str) -> &str {
    match unit {
        "days" => "dias",
        "of 10" => "de 10",
        "percent" => "%",
        "sets" => "series",
        "swims" => "entrenos",
        "weeks" => "semanas",
        "years" => "años",
        sign => sign,
    }
}

/// The formula of a number that a reply can be asked about; any other as it
/// stands.
fn formula(explanation: &Explanation) -> String {
    let words = match explanation.number {
        "even-pace target" => {
            "Objetivo a ritmo uniforme: tiempo x tramo / distancia; salida = objetivo + descanso, \
             hasta los 5 s siguientes"
        }
        "critical speed per 100" => {
            "Ritmo critico por 100: con varios tests, la recta de distancia y tiempo; con uno, \
             (T400 - T200) / 2 por la ley de potencia"
        }
        "held and missed" => {
            "Aguantada: mas lenta que el objetivo, como mucho, en el 2 % o 1.0 s, lo mayor (0.5 s \
             con décimas)"
        }
        "predicted time" => {
            "Pronostico: tiempo = a x distancia^k; k sale de los tests y de un valor previo de \
             1.07"
        }
        other => return format!("{}: {}", first_upper(other), explanation.formula),
    };
    words.to_owned()
}

fn setting(set: &Set) -> String {
    match set {
        Set::Course(course) => Spanish.course(*course).to_owned(),
        Set::Days(days) => Spanish.weekdays(days),
        Set::Sessions(sessions) => format!("{sessions} entrenos por semana"),
        Set::Minutes(minutes) => format!("{minutes} min por entreno"),
        Set::Born(year) => format!("nacimiento {year}"),
        Set::Language(language) => format!("idioma {language}"),
        Set::Units(Unit::Metre) => "metros".to_owned(),
        Set::Units(Unit::Yard) => "yardas".to_owned(),
    }
}

fn missing(wants: Wants) -> &'static str {
    match wants {
        Wants::Distance => "¿Qué distancia fue?",
        Wants::Time => "¿Qué tiempo hiciste?",
        Wants::Times => "¿Qué tiempos salieron, o la media?",
        Wants::HowFar => "¿Cuantos metros o minutos fueron?",
        Wants::Whose => "¿De quien es cada tiempo? Pon el nombre delante.",
        Wants::Who => "¿A quien te refieres?",
        Wants::Day => "¿Qué dia?",
        Wants::Coming => "¿Vienes o no?",
        Wants::HowLate => "¿Cuantos minutos tarde?",
        Wants::Lane => "¿Qué calle?",
        Wants::Set => "¿Qué tienen que nadar?",
        Wants::Which => "¿Cual de ellos?",
    }
}

fn doubt(doubt: &Doubt) -> String {
    match doubt {
        Doubt::Spelling { typed, meant } => {
            format!("{}: ¿querias decir {meant}? Aun sin guardar.", quoted(typed))
        }
        Doubt::Mile => "Una milla: ¿1500 m o 1650 yd? Aun sin guardar.".to_owned(),
        Doubt::Splits { sum, time } => format!(
            "Los parciales suman {}, no {}. ¿Qué vale? Aun sin guardar.",
            sum.short(),
            time.short()
        ),
        Doubt::TimesCount { given, repeats } => format!(
            "{given} tiempos para {repeats} repeticiones. {given} si hiciste {given}, X si el \
             resto quedo sin hacer. Aun sin guardar."
        ),
        Doubt::Figure { typed } => format!(
            "¿Qué es {} ahi? Ponle su unidad: 45min, 200m, 1:05. Aun sin guardar.",
            quoted(typed)
        ),
        Doubt::Meant { says } => {
            format!("He leido: {}. ¿Es asi? Aun sin guardar.", canonical(says))
        }
        Doubt::Missing { wants } => format!("{} Aun sin guardar.", missing(*wants)),
        Doubt::TestOrSession => "¿Eso fue un test o un entreno hecho? Aun sin guardar.".to_owned(),
        Doubt::Digits { typed } => {
            format!("¿Es {} un numero? Usa las cifras 0-9.", quoted(typed))
        }
    }
}

fn coaching(reason: &RefusalReason) -> String {
    match reason {
        RefusalReason::Stopped => {
            "Sin entreno: estas en pausa hasta que lo autorice un médico y tu entrenador te dé \
             paso."
                .into()
        }
        RefusalReason::TooShort { least_minutes } => format!(
            "Muy corto para calentar, nadar algo y volver a la calma: al menos {least_minutes} min."
        ),
        RefusalReason::NotPlanned => {
            "No hay nada planeado esos dias; escribe PLAN y tendras una semana.".into()
        }
        RefusalReason::NotHarder => "Mas fuerte ahora no: las reglas lo dejan como esta.".into(),
    }
}
