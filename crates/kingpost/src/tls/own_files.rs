//! A certificate from elsewhere: its two files read and held against each other, with what would be right where they do not fit.

use super::{names::Name, shown::Shown, snag::Snag};
use jiff::Timestamp;
use rustls::{
    ServerConfig,
    pki_types::{CertificateDer, PrivateKeyDer, pem, pem::PemObject},
};
use std::{
    fs,
    path::{Path, PathBuf},
    sync::Arc,
    time::SystemTime,
};

/// The two files.
#[derive(Clone, Debug)]
pub(crate) struct OwnFiles {
    /// The chain, the yard's own certificate first.
    pub(crate) certificate: PathBuf,
    /// The key.
    pub(crate) key: PathBuf,
}

/// When and how long the files are: differs when they were written anew.
pub(super) type Stamp = [Option<(SystemTime, u64)>; 2];

impl OwnFiles {
    /// Reads and checks both. `address`: the name or number that phones are told, where one was named.
    pub(crate) fn read(
        &self,
        address: Option<&Name>,
        now: Timestamp,
    ) -> Result<(Shown, Arc<ServerConfig>), Snag> {
        let chain = self.chain()?;
        let first = chain.first().ok_or_else(|| self.no_certificate())?;
        let shown = Shown::of(first).map_err(|_| self.no_certificate())?;
        self.good_now(&shown, now)?;
        self.stands_for(&shown, address)?;
        let config = server_config(chain, self.private_key()?).map_err(|why| match why {
            rustls::Error::InconsistentKeys(_) => Snag::file_and(
                "https-key-of-another",
                &self.key,
                "written",
                self.certificate.display(),
            ),
            other => Snag::file_and("https-file-unreadable", &self.key, "detail", other),
        })?;
        Ok((shown, config))
    }

    pub(super) fn stamp(&self) -> Stamp {
        [&self.certificate, &self.key].map(|path| {
            let about = fs::metadata(path).ok()?;
            Some((about.modified().ok()?, about.len()))
        })
    }

    fn chain(&self) -> Result<Vec<CertificateDer<'static>>, Snag> {
        let text = read(&self.certificate)?;
        CertificateDer::pem_slice_iter(&text)
            .collect::<Result<_, _>>()
            .map_err(|_| self.no_certificate())
    }

    fn no_certificate(&self) -> Snag {
        Snag::file("https-no-certificate", &self.certificate)
    }

    fn private_key(&self) -> Result<PrivateKeyDer<'static>, Snag> {
        let text = read(&self.key)?;
        PrivateKeyDer::from_pem_slice(&text).map_err(|why| {
            let locked = String::from_utf8_lossy(&text).contains("ENCRYPTED");
            match why {
                pem::Error::NoItemsFound if locked => Snag::file("https-key-locked", &self.key),
                _ => Snag::file("https-no-key", &self.key),
            }
        })
    }

    fn good_now(&self, shown: &Shown, now: Timestamp) -> Result<(), Snag> {
        if shown.until < now {
            let day = shown.until.strftime("%Y-%m-%d");
            return Err(Snag::file_and(
                "https-expired",
                &self.certificate,
                "date",
                day,
            ));
        }
        if shown.from > now {
            let day = shown.from.strftime("%Y-%m-%d");
            return Err(Snag::file_and(
                "https-not-yet",
                &self.certificate,
                "date",
                day,
            ));
        }
        Ok(())
    }

    fn stands_for(&self, shown: &Shown, address: Option<&Name>) -> Result<(), Snag> {
        if shown.names.is_empty() && shown.stars.is_empty() {
            return Err(Snag::file("https-no-names", &self.certificate));
        }
        let Some(address) = address.filter(|address| !shown.stands_for(address)) else {
            return Ok(());
        };
        let stars = shown.stars.iter().map(|star| format!("*.{star}"));
        let all: Vec<String> = shown
            .names
            .iter()
            .map(Name::to_string)
            .chain(stars)
            .collect();
        Err(Snag::Yours(
            "https-name-missing",
            vec![
                ("path", self.certificate.display().to_string()),
                ("name", address.to_string()),
                ("reasons", all.join(", ")),
            ],
        ))
    }
}

fn read(path: &Path) -> Result<Vec<u8>, Snag> {
    fs::read(path).map_err(|why| Snag::unreadable(path, &why))
}

/// How the server speaks: TLS 1.2 and 1.3 only. Fails where the key is not the certificate's.
pub(super) fn server_config(
    chain: Vec<CertificateDer<'static>>,
    key: PrivateKeyDer<'static>,
) -> Result<Arc<ServerConfig>, rustls::Error> {
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let mut config = ServerConfig::builder_with_provider(provider)
        .with_protocol_versions(&[&rustls::version::TLS13, &rustls::version::TLS12])?
        .with_no_client_auth()
        .with_single_cert(chain, key)?;
    config.alpn_protocols = vec![b"h2".to_vec(), b"http/1.1".to_vec()];
    Ok(Arc::new(config))
}
