//! What words of health are signs of.

/// A meaning that words have where bodies are spoken of.
macro_rules! signs {
    ($($variant:ident = $name:literal),* $(,)?) => {
        /// What a word, or a few together, may be a sign of. The names are those of
        /// the lists in `grammar/lexicon/health-*.txt`, where the spellings stand.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        #[allow(missing_docs)] // each is explained by its spellings
        pub enum Sign { $($variant),* }

        impl Sign {
            /// Every one, with the name that the lists know it by.
            pub const ALL: &'static [(Sign, &'static str)] = &[$((Sign::$variant, $name)),*];
        }
    };
}

signs! {
    // Who.
    Me = "me", Other = "other", Child = "child", Kin = "kin", Helper = "helper",
    // What frames it.
    Not = "not", ButNot = "but-not", Cant = "cant", If = "if", LongAgo = "long-ago", Now = "now",
    Media = "media", Training = "training", Practice = "practice", Idiom = "idiom", Gear = "gear",
    Thing = "thing", Laugh = "laugh", Deliberate = "deliberate",
    And = "and", Had = "had",
    // Parts.
    Chest = "chest", Heart = "heart", Arm = "arm", LeftArm = "left-arm", Jaw = "jaw",
    Head = "head", Headache = "headache", Face = "face", Mouth = "mouth", Lip = "lip",
    Tongue = "tongue", Throat = "throat", Sight = "sight", Neck = "neck", Spine = "spine",
    Hand = "hand", Limb = "limb", Calf = "calf", Voice = "voice", Breath = "breath",
    Breathe = "breathe", Lungs = "lungs", Side = "side",
    // How it feels and looks.
    Hurt = "hurt", Tight = "tight", Heavy = "heavy", HeartSign = "heart-sign", Numb = "numb",
    Weak = "weak", Swell = "swell", Droop = "droop", Race = "race", Odd = "odd",
    Severe = "severe", Colour = "colour", Sweat = "sweat", Froth = "froth",
    PinkFroth = "pink-froth", Bleed = "bleed", Spurt = "spurt", Wound = "wound",
    Crackle = "crackle", Wheeze = "wheeze", Cough = "cough", Vomit = "vomit", Dizzy = "dizzy",
    Faintish = "faintish", Fainted = "fainted", Collapse = "collapse", DownWeak = "down-weak", Halt = "halt",
    Unresponsive = "unresponsive", NoPulse = "pulse-none", FaceDown = "face-down",
    Under = "under", NotUp = "not-up", Rescued = "rescued", Drown = "drown", Choke = "choke",
    Swallowed = "swallowed", Water = "water", Confused = "confused", Sleepy = "sleepy",
    Slur = "slur", Seizure = "seizure", Convulsion = "convulsion", Shiver = "shiver", Cold = "cold",
    Hypothermia = "hypothermia", Hot = "hot", Heatstroke = "heatstroke", NoSweat = "not-sweating",
    Breathless = "breathless", AirHunger = "air-hunger", Rest = "rest-time", Long = "long", Much = "much", Hit = "hit",
    HitHead = "hit-head", Fall = "fall", Dive = "dive", Shallow = "shallow", HitBottom = "hit-bottom",
    CantFeel = "cant-feel", Fluid = "fluid", Light = "light", Wakeless = "wakeless",
    NotBreathing = "not-breathing", NotMoving = "not-moving",
    // Conditions and means.
    HeartAttack = "heart-attack", Palpitation = "palpitation", Indigestion = "indigestion",
    HeartMed = "heart-med", HeartCond = "heart-cond", Thinner = "thinner", Asthma = "asthma",
    AsthmaAttack = "asthma-attack", AsthmaFlare = "asthma-flare", Inhaler = "inhaler", NoHelp = "no-help",
    Diabetic = "diabetic", Sugar = "sugar", Low = "low", High = "high", Hypo = "hypo",
    Epileptic = "epileptic", AllergicReaction = "allergic-reaction", Allergic = "allergic",
    Sting = "sting", Hives = "hives", ThroatShut = "throat-shut", Pen = "pen",
    PoisonStuff = "swallow-poison", Pills = "pills", ManyPills = "many-pills",
    Overdose = "overdose", Took = "took", Gas = "gas", Fumes = "fumes", Streaming = "streaming",
    Pregnant = "pregnant", BabyStill = "baby-still", Labour = "labour", Clot = "clot",
    Tar = "tar", StrokeSick = "stroke-sick", Blind = "blind", FunnyTurn = "funny-turn",
    Meningitis = "meningitis", DarkUrine = "dark-urine", Urine = "urine", DarkColour = "dark-colour", ComeOver = "come-over", Shock = "shock", Vitals = "vitals", HelpMe = "help-me",
    Ambulance = "ambulance", Emergency = "emergency", Defib = "defib",
    MissingChild = "missing-child", Unseen = "unseen", Deep = "deep", Stuck = "stuck",
    StillFast = "still-fast", Rate = "rate", CantSwim = "cant-swim", JumpedIn = "jumped-in",
    Lump = "lump", Nosebleed = "nosebleed", Something = "something", SwallowVerb = "swallow-verb",
    Belly = "belly", Rigid = "rigid", Technique = "technique", Happy = "happy", Weeks = "weeks",
    UnderBottom = "under-bottom", Doubled = "doubled", WarmSkin = "warm-skin", Saw = "saw",
    DrowningLook = "drowning-look", Struggle = "struggle", Nines = "nines",
    // Harm and fear.
    Harm = "harm", Authority = "authority", Touch = "touch", TouchBad = "touch-bad",
    Private = "private-part", Unwanted = "unwanted", StrikeMe = "strike-me", Strike = "strike", Struck = "struck",
    Fear = "fear", Home = "home", StayAway = "stay-away", Unsafe = "unsafe", Rage = "rage",
    SelfRage = "self-rage", Secret = "secret", SecretAdult = "secret-adult",
    Message = "message-me", Contact = "contact", Often = "often", Picture = "picture", PictureBad = "picture-bad",
    Group = "group", Bully = "bully", Bruise = "bruise", Doubtful = "doubtful", Cry = "cry",
    HurtSelf = "hurt-self", HurtSelfWeak = "hurt-self-weak", EndLife = "end-life",
    DieWeak = "die-weak", Effort = "effort", Hopeless = "hopeless", Cover = "cover",
    ArmsHidden = "arms-hidden", Worried = "worried", Place = "place",
    // What is answered with care.
    NotEating = "not-eating", Purge = "purge", Weight = "weight", NoPeriod = "no-period",
    Grief = "grief", LowMood = "low-mood", Afraid = "afraid", Panic = "panic",
    BreathHold = "breath-hold", Alone = "alone", DiveTalk = "dive-talk",
    OpenWater = "open-water", MaySwim = "may-swim", Cleared = "cleared", Allowed = "allowed",
    Clinician = "clinician", Permit = "permit",
    Expecting = "expecting", Period = "period", Medicine = "medicine", Condition = "condition", Asking = "asking", Surgery = "surgery",
    // Pain and illness.
    Ache = "ache", Ill = "ill", Strange = "strange", Better = "better", Tired = "tired",
    Will = "will", Slight = "slight", PlaceWord = "place-word",
}

/// Several signs.
#[derive(Clone, Copy, PartialEq, Eq, Default)]
pub struct Signs(u128, u128);

impl Signs {
    /// None.
    pub const NONE: Signs = Signs(0, 0);

    /// These.
    pub const fn of(mut all: &[Sign]) -> Signs {
        let mut signs = Signs::NONE;
        while let [sign, rest @ ..] = all {
            signs = signs.with(*sign);
            all = rest;
        }
        signs
    }

    /// These and one more.
    pub const fn with(self, sign: Sign) -> Signs {
        let place = sign as u32;
        match place < 128 {
            true => Signs(self.0 | 1 << place, self.1),
            false => Signs(self.0, self.1 | 1 << (place - 128)),
        }
    }

    /// Both.
    pub const fn and(self, other: Signs) -> Signs {
        Signs(self.0 | other.0, self.1 | other.1)
    }

    /// True if some sign is in both.
    pub const fn meets(self, other: Signs) -> bool {
        self.0 & other.0 != 0 || self.1 & other.1 != 0
    }

    /// True if this sign is among them.
    pub const fn has(self, sign: Sign) -> bool {
        self.meets(Signs::NONE.with(sign))
    }

    /// Those that are not in `other`.
    pub const fn without(self, other: Signs) -> Signs {
        Signs(self.0 & !other.0, self.1 & !other.1)
    }

    /// True if there are none.
    pub const fn is_empty(self) -> bool {
        self.0 == 0 && self.1 == 0
    }
}

impl std::fmt::Debug for Signs {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let names = Sign::ALL.iter().filter(|(sign, _)| self.has(*sign)).map(|(_, name)| name);
        f.debug_set().entries(names).finish()
    }
}
