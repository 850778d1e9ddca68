//! Which signs together are a danger: warning signs as first-aid bodies teach
//! them to the public.
//!
//! Sources of the signs: European Resuscitation Council and Resuscitation Council
//! UK, guidelines 2021 and 2025, first aid; International Federation of Red Cross
//! and Red Crescent Societies, first-aid guidelines 2020; patient pages of
//! national health services on heart attack, stroke (face, arms, speech, time),
//! head injury, anaphylaxis, asthma, low blood sugar, sepsis, deep vein
//! thrombosis; swimming-induced lung oedema as reviewed in the literature (sudden
//! breathlessness, cough with pink or bloody froth). Which words are near enough to
//! be said of one thing is ours.

use super::rule::{Rule, rules};
use super::sign::Sign;
use crate::message::Danger;

/// Every rule of danger.
pub const DANGERS: &[Rule<Danger>] = rules! { Danger;
    // Nobody answers, moves or breathes.
    sure Unconscious: [NotBreathing];
    sure Unconscious: [NoPulse];
    sure Unconscious: [FaceDown], near 8 [Other NotMoving Water Wakeless Under NoHelp];
    ask Unconscious: [FaceDown] ! [Technique];
    sure Unconscious: [NotMoving], near 9 [Other FaceDown Water Under Wakeless Unresponsive HelpMe];
    sure Unconscious: [Wakeless], near 9 [Other FaceDown Confused Colour NotMoving Sleepy];
    ask Unconscious: [Wakeless];
    sure Unconscious: [Unresponsive];
    sure Unconscious: [Collapse Fainted], near 12 [Wakeless NotBreathing NotMoving Unresponsive];
    sure Unconscious: [NotUp];
    sure Unconscious: [Halt], near 10 [DownWeak Collapse Fainted];
    sure Unconscious: [Other], near 4 [Under], near 8 [NotMoving NotUp Long Wakeless];
    sure Unconscious: [Defib], near 5 [HelpMe Now] ! [Training Practice];
    ask Unconscious: [Defib] ! [Training Practice];
    sure Unconscious: [Other], near 5 [Fainted Collapse], near 10 [Colour Slur Seizure Confused NotMoving];

    // Something in the throat.
    sure Choking: [Choke];
    sure Choking: [Stuck], near 4 [Throat];

    // Water: near drowning, water breathed in, oedema of the lungs.
    sure Water: [PinkFroth];
    sure Water: [Cough Vomit], near 7 [Froth Crackle];
    sure Water: [Froth], near 5 [Mouth Breath Breathe Lungs Other];
    sure Water: [Cough], near 7 [Bleed] ! [PinkFroth];
    sure Water: [Cough], near 6 [Breathless Cant Chest];
    sure Water: [Crackle], near 6 [Breath Breathe Chest Lungs Cough Rest];
    ask Water: [Crackle];
    ask Water: [Froth] ! [Cold];
    sure Water: [Swallowed], near 5 [Water], near 12 [Cough Hurt Breath Breathe Breathless Chest Sleepy Cant Froth Vomit Tight Confused];
    sure Water: [Swallowed], near 3 [Much], near 4 [Water], near 14 [Long];
    sure Water: [Cough], then 6 [Long], near 12 [Water Under];
    sure Water: [Drown];
    sure Water: [Under], near 14 [Rescued];
    sure Water: [Under], near 16 [Cough Vomit Choke Sleepy Colour Fainted Unresponsive];
    sure Water: [Child], near 4 [Under];
    sure Water: [Other Child], near 4 [UnderBottom];
    ask Water: [UnderBottom];
    ask Water: [Other], near 3 [Under] ! [Technique Saw];
    sure Water: [Other Child], near 9 [DrowningLook] ! [Technique];
    ask Water: [DrowningLook] ! [Technique];
    ask Water: [Child], near 8 [Water Deep], near 8 [CantSwim];
    ask Water: [Rescued], near 6 [Other Me];
    sure Water: [Rescued], near 10 [Colour Cough Vomit Sleepy Breath Breathless Confused Water];
    sure Water: [Child], near 4 [Stuck], near 6 [Deep];
    sure Water: [Stuck], near 4 [Deep Under], near 6 [Other Child HelpMe];
    sure Water: [MissingChild];
    sure Water: [Child Other], near 12 [JumpedIn], near 9 [CantSwim];
    sure Water: [Child], near 4 [JumpedIn], near 8 [Unseen CantSwim HelpMe];
    ask Water: [Unseen], near 5 [Other Child], near 8 [Water Under Deep];
    ask Water: [Other Child], near 5 [Unseen], near 8 [Water Under Deep];

    // Blood that doesn't stop.
    sure Bleeding: [Bleed], near 4 [Spurt];
    sure Bleeding: [Wound], near 10 [Spurt];
    sure Bleeding: [Nosebleed], near 10 [Long Thinner Spurt];
    sure Bleeding: [Wound], near 6 [Bleed];
    sure Bleeding: [Bleed], near 8 [Long Much];
    sure Bleeding: [Bleed], near 14 [Thinner];
    sure Bleeding: [Thinner], near 12 [Spurt];
    ask Bleeding: [Wound] ! [Technique];
    ask Bleeding: [Wound], near 5 [Limb Hand Head Face Arm];

    // A swelling face or throat; a sting, a food.
    sure Allergy: [AllergicReaction] ! [Training];
    sure Allergy: [ThroatShut], near 14 [Sting Hives Swell Breathless Pen Allergic Took Face Lip Tongue Cant Breath];
    sure Allergy: [Throat Lip Tongue], near 4 [Swell];
    ask Allergy: [ThroatShut];
    sure Allergy: [Face Mouth], near 3 [Swell];
    sure Allergy: [Hives], near 12 [Throat Tongue Lip Face Breathless Breath Breathe Wheeze Voice ThroatShut Faintish Dizzy Vomit];
    sure Allergy: [Sting Allergic], near 14 [Hives Breathless Breathe Wheeze Dizzy Faintish Fainted Cough] ! [Drown];
    sure Allergy: [Pen], near 10 [Hives ThroatShut Swell Sting];
    ask Allergy: [Hives], near 5 [Spurt Much Long];
    sure Allergy: [Sting], near 4 [Lip Tongue Throat Mouth] ! [Saw Idiom];
    sure Allergy: [Allergic], near 14 [Mouth Tongue Throat Lip];
    sure Allergy: [Allergic], near 8 [Swell Breath Throat];

    // Neck or back, and feeling lost.
    sure Spine: [Neck Spine Head], near 14 [Numb CantFeel], near 9 [Hand Limb Arm];
    sure Spine: [Dive Fall HitHead], near 16 [CantFeel Numb];
    sure Spine: [Dive], near 8 [HitBottom];
    sure Spine: [Dive], near 12 [Shallow], near 14 [Neck Spine Head HitHead Numb CantFeel Hurt];
    sure Spine: [Dive Fall], near 9 [Neck];
    sure Spine: [Hit HitHead], near 12 [Neck], near 8 [Hurt Numb Severe];
    sure Spine: [Fall], near 6 [Spine], near 8 [Numb CantFeel Severe Weak];
    sure Spine: [CantFeel], near 4 [Limb Hand], near 10 [Neck Spine Fall Dive Hit];
    ask Spine: [CantFeel], near 3 [Limb Hand Arm] ! [Cold];
    sure Spine: [Spine], near 14 [CantFeel];
    sure Spine: [Spine Neck], near 8 [Numb];
    sure Spine: [Neck], near 6 [Severe], near 10 [Numb CantFeel Headache];

    // A fit.
    sure Seizure: [Convulsion];
    sure Seizure: [Seizure], near 8 [Other Child Epileptic HelpMe];
    ask Seizure: [Seizure];
    sure Seizure: [Epileptic], near 8 [Seizure Fainted Collapse Wakeless];
    sure Seizure: [Shiver], near 8 [Seizure];
    sure Seizure: [Confused], near 8 [Seizure];

    // Face, arms, speech, sight, the worst headache.
    sure Stroke: [Mouth Face], near 6 [Droop];
    sure Stroke: [Side], near 4 [Droop Numb Weak];
    sure Stroke: [Face], near 3 [Numb];
    sure Stroke: [Side Face], near 4 [Heavy Odd];
    sure Stroke: [Slur];
    sure Stroke: [Voice], near 3 [Slur Droop];
    sure Stroke: [Arm Hand], near 5 [Weak], near 14 [Voice Mouth Face Slur Side Confused Now];
    sure Stroke: [Hand], near 4 [Weak Droop] ! [Cold];
    ask Stroke: [Arm], near 4 [Weak];
    sure Stroke: [Arm], near 3 [Numb];
    sure Stroke: [Blind];
    sure Stroke: [StrokeSick];
    sure Stroke: [Severe], near 4 [Headache];
    sure Stroke: [Sight], near 4 [Droop Blind];

    // The heart.
    sure Heart: [Chest], near 6 [Hurt Tight Heavy Numb Odd Severe];
    sure Heart: [Chest], near 6 [Race];
    sure Heart: [Chest], near 14 [Arm LeftArm Jaw Sweat Colour Breathless Faintish Dizzy Indigestion Vomit];
    sure Heart: [HeartSign];
    sure Heart: [Tight Heavy], near 4 [Chest];
    sure Heart: [LeftArm], near 4 [Hurt Numb Heavy Tight Odd Weak] ! [Fall];
    sure Heart: [Jaw], near 4 [Hurt Tight Heavy Numb];
    sure Heart: [Heart], near 4 [Race] ! [Happy];
    ask Heart: [Heart], near 4 [Race];
    sure Heart: [Heart], near 3 [Hurt Odd Tight];
    sure Heart: [HeartAttack] ! [Saw];
    sure Heart: [Palpitation];
    sure Heart: [Colour], near 8 [Sweat] ! [Saw];
    sure Heart: [Rate Heart], near 14 [StillFast];
    sure Heart: [Sweat], near 10 [Indigestion Chest Jaw Arm Faintish Breathless];
    ask Heart: [Sweat], near 6 [Vomit Dizzy Odd];
    sure Heart: [Indigestion], near 10 [Chest Arm Jaw Sweat Breathless Severe];
    ask Heart: [HeartMed], near 8 [NoHelp];
    sure Heart: [HeartMed HeartCond], near 16 [Dizzy Faintish Fainted Breathless Chest Collapse Race Palpitation Numb];

    // Asthma.
    sure Asthma: [Inhaler], near 9 [NoHelp] ! [Training];
    sure Asthma: [Wheeze Breathless AirHunger Asthma AsthmaFlare], near 14 [Inhaler], near 6 [NoHelp];
    sure Asthma: [AsthmaFlare], near 12 [Breathless Cant Wheeze NoHelp Severe Breathe Breath];
    sure Asthma: [Wheeze], near 8 [Breathless Breath Breathe Chest Cant Voice Long];
    sure Asthma: [Asthma AsthmaFlare], near 9 [Breathless AirHunger Breathe];
    sure Asthma: [AsthmaAttack];
    ask Asthma: [AsthmaFlare];
    sure Asthma: [Inhaler], near 9 [Struggle];
    ask Asthma: [Asthma], near 6 [Odd Hurt Severe Race Long];
    ask Asthma: [Wheeze];

    // Breath that doesn't come.
    sure Breath: [Cant], then 4 [Breathe] ! [BreathHold Technique Laugh];
    ask Breath: [Cant], then 4 [Breathe] ! [BreathHold];
    sure Breath: [AirHunger];
    sure Breath: [Lip Mouth], near 3 [Colour];
    sure Breath: [Breathless], near 7 [Rest Long Severe Chest Odd Sweat Colour Confused Calf Lungs Cough Wheeze];
    sure Breath: [Breathe], near 3 [Odd Hurt Heavy Tight];
    sure Breath: [Hurt], near 3 [Breathe];
    sure Breath: [Calf], near 8 [Swell Hot], near 20 [Breathless Chest Hot Swell Hurt];
    sure Breath: [Clot];
    sure Breath: [Calf], near 6 [Swell], near 8 [WarmSkin];
    ask Breath: [Calf], near 4 [Swell];
    ask Breath: [Breathless] ! [Happy];
    sure Breath: [Lungs], near 3 [Crackle Tight];

    // Sugar.
    sure Sugar: [Sugar], near 5 [Low High];
    sure Sugar: [Hypo] ! [Training];
    sure Sugar: [Diabetic Sugar], near 16 [Shiver Sweat Confused Wakeless Unresponsive Vomit Fainted Faintish Collapse Slur Dizzy Sleepy Weak Odd Seizure Low High];

    // A knock to the head.
    sure Head: [HitHead];
    sure Head: [Hit], near 5 [Head];
    sure Head: [Fall], near 6 [Head] ! [Dive];
    sure Head: [Head], near 6 [Lump];
    sure HeadSigns: [HitHead], near 20 [Vomit Confused Sleepy Fluid Light Headache Bleed Fainted Unresponsive Seizure Thinner Dizzy Slur Neck Odd];
    sure HeadSigns: [Lump], near 12 [Sleepy Vomit Confused Light];
    sure HeadSigns: [Head], near 6 [Lump], near 20 [Vomit Confused Sleepy Fluid Light Headache Fainted Thinner Dizzy Slur];
    sure HeadSigns: [Hit Fall], near 5 [Head], near 20 [Vomit Confused Sleepy Fluid Light Headache Bleed Fainted Unresponsive Seizure Thinner Dizzy Slur Odd];
    sure HeadSigns: [Fluid], near 9 [Head HitHead Headache Hit Bleed];
    sure HeadSigns: [Light], near 10 [Headache Vomit];
    sure Head: [Headache], near 5 [Hit];

    // Poison, fumes, tablets.
    sure Poison: [Took], near 6 [PoisonStuff];
    sure Poison: [PoisonStuff], near 10 [Took Vomit];
    sure Poison: [Overdose];
    sure Poison: [HeartMed Pills Thinner], near 4 [Doubled];
    ask Poison: [SwallowVerb], near 3 [Something];
    // Somebody else's tablets.
    ask Poison: [Child], near 6 [Took], near 5 [Pills HeartMed Thinner], then 3 [Kin];
    sure Poison: [Pills HeartMed Thinner], near 4 [ManyPills], near 9 [Took];
    sure Poison: [Took], near 4 [ManyPills], near 3 [Pills HeartMed Thinner];
    sure Fumes: [Fumes];
    sure Fumes: [Gas], near 12 [Cough Vomit Streaming Breathless Breathe] ! [Heart];

    // Cold and heat.
    sure Cold: [Hypothermia];
    sure Cold: [Shiver], near 6 [Long Cant] ! [Sugar Diabetic Seizure];
    sure Cold: [Cold], near 16 [Confused Slur Sleepy Unresponsive] ! [Vomit];
    sure Heat: [Heatstroke];
    sure Heat: [Hot], near 12 [Confused NoSweat Faintish Fainted Collapse Seizure Unresponsive];
    sure Heat: [Hot], near 14 [Dizzy Headache Vomit];

    // Pregnancy.
    sure Pregnancy: [Pregnant], near 14 [Hurt Tight Hit];
    sure Pregnancy: [Pregnant Expecting], near 24 [Labour Fainted Faintish Collapse Chest Headache Light Dizzy BabyStill];
    sure Pregnancy: [BabyStill];
    sure Pregnancy: [Weeks], near 10 [Labour];

    // Fainted and come round, or nearly.
    sure Faint: [Fainted] ! [Saw];
    sure Faint: [Faintish] ! [Saw];
    sure Faint: [Collapse], near 6 [Other Me] ! [Technique];
    ask Faint: [Collapse];

    // Help is called for, and grave signs of no one kind.
    sure Unspecific: [HelpMe], near 14 [Now Other Me Child];
    sure Unspecific: [HelpMe];
    sure Unspecific: [Ambulance] ! [Practice Training];
    sure Unspecific: [Emergency];
    // Blood from within: nothing that can be pressed on.
    sure Unspecific: [Tar];
    sure Unspecific: [Vomit], near 3 [Bleed];
    sure Unspecific: [Meningitis];
    // Muscle broken down by hard effort, as hospitals' patient pages tell its sign.
    sure Unspecific: [DarkUrine];
    sure Unspecific: [Urine], near 4 [DarkColour];
    sure Unspecific: [Shock];
    sure Unspecific: [FunnyTurn];
    sure Unspecific: [ComeOver], then 2 [Odd Faintish Dizzy Sweat Weak Confused];
    sure Unspecific: [Belly], near 8 [Severe Rigid], near 10 [Hurt Vomit Hit];
    sure Unspecific: [Colour], near 7 [Vomit Dizzy Confused Weak Sleepy Shiver Breathless];
    sure Unspecific: [Confused], near 9 [Vomit Sleepy Sweat Shiver Headache Colour];
    ask Unspecific: [Confused], near 4 [Other];
    ask Unspecific: [Other Face], near 5 [Colour] ! [Saw];
    sure Unspecific: [Vitals], near 8 [Low High], near 12 [Dizzy Sweat Faintish Confused Chest Vomit Headache];
    sure Unspecific: [Nines], near 3 [Now HelpMe Emergency];

    // Dizzy.
    sure Dizzy: [Dizzy];
};

/// How much a sign worries where no rule takes it with others: in tenths.
pub const WORRIES: &[(Sign, u8)] = &[
    (Sign::Arm, 3),
    (Sign::Bleed, 9),
    (Sign::Breath, 7),
    (Sign::Calf, 2),
    (Sign::Cant, 3),
    (Sign::Chest, 9),
    (Sign::Collapse, 8),
    (Sign::Colour, 6),
    (Sign::Confused, 9),
    (Sign::Cough, 6),
    (Sign::Diabetic, 5),
    (Sign::Droop, 3),
    (Sign::Face, 4),
    (Sign::Faintish, 9),
    (Sign::Fluid, 7),
    (Sign::Froth, 6),
    (Sign::Hand, 2),
    (Sign::Headache, 5),
    (Sign::Heart, 6),
    (Sign::HeartCond, 5),
    (Sign::HeartMed, 5),
    (Sign::Heavy, 3),
    (Sign::Hit, 3),
    (Sign::Hives, 6),
    (Sign::Hurt, 5),
    (Sign::Inhaler, 5),
    (Sign::Jaw, 6),
    (Sign::Light, 6),
    (Sign::Long, 2),
    (Sign::Lungs, 5),
    (Sign::Mouth, 4),
    (Sign::Neck, 4),
    (Sign::NoHelp, 2),
    (Sign::Numb, 8),
    (Sign::Odd, 3),
    (Sign::Pen, 4),
    (Sign::Pregnant, 6),
    (Sign::Rescued, 8),
    (Sign::Rest, 3),
    (Sign::Seizure, 8),
    (Sign::Severe, 6),
    (Sign::Shiver, 5),
    (Sign::Side, 4),
    (Sign::Sight, 6),
    (Sign::Sleepy, 5),
    (Sign::Sugar, 4),
    (Sign::Sweat, 6),
    (Sign::Swell, 4),
    (Sign::Swallowed, 4),
    (Sign::Throat, 5),
    (Sign::Tight, 4),
    (Sign::Tongue, 6),
    (Sign::Under, 6),
    (Sign::Unresponsive, 9),
    (Sign::Voice, 3),
    (Sign::Vomit, 6),
    (Sign::Weak, 5),
    (Sign::Wheeze, 8),
];

/// Worries of one sentence from here on are asked about.
pub const WORRYING: u8 = 17;
