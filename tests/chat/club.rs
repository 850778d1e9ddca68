//! A squad of an invented club, with the real service and store.

use std::sync::Arc;

use lapwing::clock::{ClockMode, WallClock};
use lapwing::journal::SledJournal;
use lapwing::service::{Answer, Body, Incoming, NewSquad, Service, Spoken, WayBack};
use tempfile::TempDir;

pub const COACH: &str = "+15550100";

pub struct Club {
    pub service: Arc<Service>,
    pub code: String,
    pub folder: TempDir,
}

pub fn open(folder: &TempDir) -> Arc<Service> {
    let journal = SledJournal::open(folder.path().join("journal")).unwrap();
    Service::open(Arc::new(journal), Arc::new(WallClock), ClockMode::Wall).unwrap()
}

impl Club {
    /// A screened squad of grown-ups with this coach.
    pub async fn coached_by(coach: &str) -> Club {
        let folder = tempfile::tempdir().unwrap();
        let service = open(&folder);
        let squad = NewSquad::of_grown_ups("Dusk", coach);
        let code = service.add_squad(squad).await.unwrap().code;
        Club { service, code, folder }
    }

    pub async fn hears(&self, from: &str, room: Option<&str>, text: &str) -> Answer {
        self.hears_by(WayBack::default(), from, room, text).await
    }

    pub async fn hears_by(
        &self,
        back: WayBack,
        from: &str,
        room: Option<&str>,
        text: &str,
    ) -> Answer {
        let incoming = Incoming {
            channel: "messages".into(),
            id: None,
            from: from.to_owned(),
            room: room.map(str::to_owned),
            sent_at: None,
            body: Body::Text(text.to_owned()),
        };
        self.service.receive_by(incoming, back).await.unwrap()
    }
}

/// What is said in the room, if anything.
pub fn in_room(answer: &Answer) -> Option<&Spoken> {
    answer.replies.iter().find(|reply| reply.room.is_some())
}

/// What is said to this address alone.
pub fn alone<'a>(answer: &'a Answer, to: &str) -> Option<&'a Spoken> {
    answer.replies.iter().find(|reply| reply.room.is_none() && reply.to == to)
}
