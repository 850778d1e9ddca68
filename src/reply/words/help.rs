//! Help, by who asks and by topic.

use crate::reply::{HelpReply, Topic, Voice};

// What is told, and in which order.
impl Voice {
    /// Help.
    pub(in crate::reply) fn help(self, reply: &HelpReply) -> Vec<String> {
        let lines = match reply {
            HelpReply::Swimmer => self.for_a_swimmer(),
            HelpReply::Coach => self.for_a_coach(),
            HelpReply::Room => self.for_a_room(),
            HelpReply::Stranger => self.for_a_stranger(),
            HelpReply::OptedOut => self.for_who_opted_out(),
            HelpReply::Topic(topic) => self.on_topic(*topic),
            HelpReply::Meaning { terms, on, hold } => return self.meaning(terms, *on, *hold),
            HelpReply::Us => return self.what_we_are(),
            HelpReply::Data => return self.what_is_kept(),
            HelpReply::Why { main, of_change, explanations, rules, without } => {
                let main = main.iter().map(|main| self.why_main(main));
                let explanations = explanations.iter().map(|one| self.explanation(one));
                let rules = rules.iter().map(|rule| self.rule(rule));
                let limits = self.within_limits(without);
                return match of_change {
                    true => main.chain(rules).chain(limits).chain(explanations).collect(),
                    false => main.chain(explanations).chain(limits).chain(rules).collect(),
                };
            }
        };
        lines.iter().map(|line| (*line).to_owned()).collect()
    }
}

// In which words.
impl Voice {
    /// Help in general, for a swimmer.
    fn for_a_swimmer(self) -> &'static [&'static str] {
        self.pick(
            &[
                "Text: 200 test 3:12 | 8x50 on 1:15 held 48 48 49 50 49 49 50 51 | done 1500 \
                 45min rpe 6 | next | plan | targets | pool 25m",
                "in | out | 10 late | shoulder hurts 4 | ill | better | undo | fix 3:14 | why | \
                 more. HELP TEST, SET, PLAN, PAIN for more. Danger: emergency number. STOP for no \
                 texts.",
            ],
            &[
                "Escribe: 200 test 3:12 | 8x50 cada 1:15 hice 48 48 49 50 49 49 50 51 | hecho \
                 1500 45min rpe 6 | siguiente | plan | objetivos",
                "vengo | no vengo | duele hombro 4 | gripe | mejor | deshacer. AYUDA TEST, PLAN, \
                 DOLOR para mas. Peligro: emergencias. STOP para no recibir mensajes.",
            ],
        )
    }

    /// Help in general, for a coach.
    fn for_a_coach(self) -> &'static [&'static str] {
        self.pick(
            &[
                "Coach: squad | heron | heron 200 test 3:12 | 200 test: heron 3:12, teal 2:58 | \
                 focus heron: long exhale | keep heron easy | release heron | undo",
                "HELP EVENING, LANES, REGISTER, TEST NIGHT, RESULTS, PEOPLE or TIMETABLE for \
                 more; HELP TEST, SET, PLAN, PAIN. Danger: emergency number. STOP for no texts.",
            ],
            &[
                "Entrenador: equipo | heron | heron 200 test 3:12 | 200 test: heron 3:12, teal \
                 2:58 | manten heron suave | libera heron | deshacer",
                "AYUDA NOCHE, CALLES, LISTA, NOCHE DE TEST, RESULTADOS, GENTE o HORARIO para mas; \
                 AYUDA TEST, SERIE, PLAN, DOLOR. Peligro: emergencias. STOP para no recibir \
                 mensajes.",
            ],
        )
    }

    /// Help in a group chat: two lines at most.
    fn for_a_room(self) -> &'static [&'static str] {
        self.pick(
            &[
                "Say my name first: 200 test 3:12 | 4x50 on 1:15 held 48 48 49 50 | targets",
                "Plans, health and anything of your own: text me privately, HELP.",
            ],
            &[
                "Primero mi nombre: 200 test 3:12 | 4x50 cada 1:15 hice 48 48 49 50 | objetivos",
                "Planes, salud y todo lo tuyo: escribeme en privado, AYUDA.",
            ],
        )
    }

    /// Help for someone we don't know.
    fn for_a_stranger(self) -> &'static [&'static str] {
        self.pick(
            &["Lapwing, a swim squad's coaching assistant. Ask the coach for the squad's code, \
               then text: JOIN CODE heron (your own name for heron). In danger: emergency number. \
               STOP for no texts."],
            &["Lapwing, ayudante de un equipo de natacion. Pide al entrenador el codigo del \
               equipo y escribe: UNIR CODIGO heron (tu nombre en vez de heron). Peligro: \
               emergencias. STOP para no recibir mensajes."],
        )
    }

    /// Help for someone who has opted out.
    fn for_who_opted_out(self) -> &'static [&'static str] {
        self.pick(
            &["Lapwing, a swim squad's coaching assistant. You get no texts from it, save answers \
               to danger. START to have them again; for anything else ask your coach."],
            &["Lapwing, ayudante de un equipo de natacion. No te manda mensajes, salvo respuestas \
               a un peligro. START para tenerlos otra vez; para lo demas, pregunta al entrenador."],
        )
    }

    /// Help on a topic.
    fn on_topic(self, topic: Topic) -> &'static [&'static str] {
        match topic {
            Topic::Test => self.pick(
                &["A test: distance, the word test, the time. 200 test 3:12 | test 400 back \
                   7:05.2 yesterday | 100 test 1:20 25yd. A wrong one: undo, or fix 3:14."],
                &["Un test: la distancia, la palabra test y el tiempo. 200 test 3:12 | test 400 \
                   espalda 7:05.2 ayer | 100 test 1:20 25yd. Para arreglarlo: deshacer, o corrige \
                   3:14."],
            ),
            Topic::Set => self.pick(
                &["A set: 8x50 on 1:15 held 48 48 49 50 x 49 50 51 (x is a missed one), or: 6x100 \
                   on 2:30 avg 1:37"],
                &["Una serie: 8x50 cada 1:15 hice 48 48 49 50 x 49 50 51 (x es una sin hacer), o: \
                   6x100 cada 2:30 media 1:37"],
            ),
            Topic::Done => self.pick(
                &["A session: done 1500 45min rpe 6. Other training: ran 50min rpe 5."],
                &["Un entreno: hecho 1500 45min rpe 6. Otro deporte: corri 50min rpe 5."],
            ),
            Topic::Plan => self.pick(
                &["plan | plan easy week | plan 3x week 45min | next | next 30min no fins | \
                   shorter | easier | why"],
                &["plan | plan semana suave | plan 3 veces 45min | siguiente | siguiente 30min \
                   sin aletas | mas corto | mas facil | porque"],
            ),
            Topic::Pain => self.pick(
                &["Text shoulder hurts 4 (0 to 10), or ill; better when it has gone. Chest pain, \
                   fainting, trouble breathing: out, tell the lifeguard, emergency number, now."],
                &["Escribe duele hombro 4 (de 0 a 10), o gripe; mejor cuando se pase. Dolor de \
                   pecho, desmayo, falta de aire: sal, avisa al socorrista y llama a emergencias, \
                   ya."],
            ),
            Topic::Profile => self.pick(
                &["pool 25m, 50m or 25yd | born 1981 | days tue thu | language es"],
                &["piscina 25m, 50m o 25yd | naci 1981 | dias martes jueves | idioma ingles"],
            ),
            Topic::Squad => self.pick(
                &["squad | squad overdue | squad hurt | heron | compare heron teal | keep heron \
                   easy | release heron | approve plans on. HELP EVENING, LANES, REGISTER for the \
                   night."],
                &["equipo | equipo pendientes | equipo lesionados | heron | compara heron teal | \
                   manten heron suave | libera heron | aprobar planes si. AYUDA NOCHE, CALLES, \
                   LISTA para la noche."],
            ),
            Topic::Register => self.pick(
                &[
                    "For yourself: in | out | 10 late",
                    "here heron teal | all here bar wren | absent wren | who is in | here shows \
                     the register",
                ],
                &[
                    "Para ti: vengo | no vengo | 10 tarde",
                    "presentes heron teal | todos presentes menos wren | ausente wren | quien \
                     viene | presentes muestra la lista",
                ],
            ),
            Topic::Timetable => self.pick(
                &["slot tue 2000-2100 4 lanes | 3 lanes tonight | thu at 50m | pool shut thu | \
                   slot"],
                &["turno martes 2000-2100 4 calles | 3 calles hoy | cerrada el jueves | turno"],
            ),
            Topic::Evening => self.pick(
                &[
                    "plan tue | set 4x50 easy, 8x50 on 1:15, 4x25 easy | tonight",
                    "While it is swum: 12 left | L1 make it 6 | L2 on 1:15 | skip last round. My \
                     lane tells each swimmer theirs.",
                ],
                &[
                    "plan martes | serie 4x50 suave, 8x50 cada 1:15, 4x25 suave | mi calle",
                    "Mientras se nada: quedan 12 | calle 1 haz 6 | calle 2 cada 1:15 | salta una \
                     vuelta. Mi calle dice a cada uno la suya.",
                ],
            ),
            Topic::Results => self.pick(
                &[
                    "200 test: heron 3:12, teal 2:58 | A lane in its order, x for none: L2 200 \
                     test 3:12 3:20 x",
                    "fix heron tue 200 3:21 | swap heron teal tue 200 | that was teal | undo",
                ],
                &[
                    "200 test: heron 3:12, teal 2:58 | Una calle en orden, x si falta: calle 2 \
                     200 test 3:12 3:20 x",
                    "corrige heron martes 200 3:21 | cambia heron teal martes 200 | era de teal | \
                     deshacer",
                ],
            ),
            Topic::TestNight => self.pick(
                &["test night 400 thu | test night | squad owed | L2 400 test 6:50 7:05 x"],
                &["noche de test 400 jueves | noche de test | equipo por hacer | calle 2 400 test \
                   6:50 7:05 x"],
            ),
            Topic::People => self.pick(
                &[
                    "invite +15550123 assistant kestrel | add robin 2:20 | hand over to kestrel | \
                     remove kestrel | leave",
                    "Robin, once with a phone of their own: claim CODE-1 | squads",
                ],
                &[
                    "invita +15550123 ayudante kestrel | suma robin 2:20 | cede a kestrel | quita \
                     kestrel | dejo el equipo",
                    "Robin, ya con telefono: reclama CODE-1 | mis equipos",
                ],
            ),
            Topic::Lanes => self.pick(
                &["lanes 4 | heron lane 2 | heron any lane | apart heron teal | together heron \
                   teal | lanes. Lane 1 is the fastest."],
                &["calles 4 | heron calle 2 | heron cualquier calle | separa heron teal | junta \
                   heron teal | calles. La calle 1 es la mas rapida."],
            ),
            Topic::Fix => self.pick(
                &["undo takes back your last result | fix 3:14 | that was teal"],
                &["deshacer quita tu ultimo resultado | corrige 3:14 | era de teal"],
            ),
        }
    }
}
