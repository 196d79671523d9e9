//! Reading what is sent, with a picture in it: bounded in bytes, time and number at once.

use super::{MOST_BYTES, PhotoTrouble};
use axum::{
    body::{Body, Bytes},
    extract::{Multipart, multipart::Field},
};
use http_body_util::BodyExt as _;
use std::time::Duration;
use tokio::{sync::Semaphore, time::timeout};

/// Most of a body that is read at all. What is over a picture's limit is thrown away as it comes, so that whoever sent it
/// hears why instead of finding the line dead.
pub(crate) const MOST_READ: usize = 64 << 20;

/// Longest that reading may take: 12 MiB over a weak link in the yard.
const LONGEST: Duration = Duration::from_secs(180);

/// Most bytes of a form's field beside the picture.
const MOST_TEXT: usize = 16 << 10;

/// Pictures read at once: what waits in memory stays below some 100 MB.
static READERS: Semaphore = Semaphore::const_new(8);

/// A form with a picture.
#[derive(Debug, Default)]
pub(crate) struct Sent {
    /// The picture's bytes, where one was chosen.
    pub(crate) picture: Option<Result<Vec<u8>, PhotoTrouble>>,
    /// The other fields.
    pub(crate) fields: Vec<(String, String)>,
}

/// A body that is a picture and nothing else.
pub(crate) async fn whole(mut body: Body) -> Result<Vec<u8>, PhotoTrouble> {
    let _reader = READERS.acquire().await;
    let read = async {
        let mut kept = Kept::new(MOST_BYTES);
        while let Some(frame) = body.frame().await {
            let frame = frame.map_err(|_| PhotoTrouble::CutOff)?;
            if frame.data_ref().is_some_and(|data| !kept.take(data)) {
                break;
            }
        }
        kept.bytes()
    };
    timeout(LONGEST, read)
        .await
        .unwrap_or(Err(PhotoTrouble::CutOff))
}

/// A form whose field `picture` is a file. A file of no bytes and no name is what a browser sends where none was chosen.
pub(crate) async fn form(mut form: Multipart) -> Result<Sent, PhotoTrouble> {
    let _reader = READERS.acquire().await;
    let read = async {
        let mut sent = Sent::default();
        while let Some(field) = form.next_field().await.map_err(|_| PhotoTrouble::CutOff)? {
            let name = field.name().unwrap_or_default().to_owned();
            if name == "picture" {
                let chosen = field.file_name().is_some_and(|name| !name.is_empty());
                let picture = of_field(field, MOST_BYTES).await;
                sent.picture = chosen.then_some(picture);
            } else if sent.fields.len() < 20 {
                let text = of_field(field, MOST_TEXT).await.unwrap_or_default();
                sent.fields
                    .push((name, String::from_utf8_lossy(&text).into_owned()));
            }
        }
        Ok(sent)
    };
    timeout(LONGEST, read)
        .await
        .unwrap_or(Err(PhotoTrouble::CutOff))
}

async fn of_field(mut field: Field<'_>, most: usize) -> Result<Vec<u8>, PhotoTrouble> {
    let mut kept = Kept::new(most);
    while let Some(data) = field.chunk().await.map_err(|_| PhotoTrouble::CutOff)? {
        if !kept.take(&data) {
            break;
        }
    }
    kept.bytes()
}

/// What was read so far; nothing once it is too much.
struct Kept {
    most: usize,
    seen: usize,
    bytes: Vec<u8>,
}

impl Kept {
    fn new(most: usize) -> Self {
        Self {
            most,
            seen: 0,
            bytes: Vec::new(),
        }
    }

    /// Takes a piece; false where no more should be read.
    fn take(&mut self, data: &Bytes) -> bool {
        self.seen += data.len();
        if self.seen <= self.most {
            self.bytes.extend_from_slice(data);
        } else {
            self.bytes = Vec::new();
        }
        self.seen <= MOST_READ
    }

    fn bytes(self) -> Result<Vec<u8>, PhotoTrouble> {
        if self.seen > self.most {
            return Err(PhotoTrouble::TooLarge);
        }
        Ok(self.bytes)
    }
}
