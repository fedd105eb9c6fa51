//! `clothyard page`: the live page, at an address of this computer.

use std::fs;
use std::io;
use std::net::{IpAddr, SocketAddr, TcpListener};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;

use page::{Settings, Shelf};

use crate::failure::Failure;
use crate::tools::{Commands, RunCommand};
use crate::{Stream, ask, cli, serve, shelf};

/// Starts the page and answers until the program is stopped.
pub(crate) fn page(
    order: &cli::Page,
    run: RunCommand,
    out: &mut Stream,
    err: &mut Stream,
) -> Result<(), Failure> {
    let site =
        PageSite::open(Path::new("."), order.file.as_deref(), (order.address, order.port), run)?;
    let url = format!("http://{}/", site.address());
    if !order.address.is_loopback() {
        err.print(&format!(
            "WARNING: --address {} lets other computers on your network open this page, change\n\
             what it shows, read the scenario files of this folder and save new ones into it.\n\
             Nothing asks them for a password. Stop it with Ctrl-C when you are done.\n",
            order.address
        ))?;
    }
    out.print(&format!("The page is at {url}\nStop it with Ctrl-C.\n"))?;
    if order.open && open_browser(&url).is_err() {
        err.print("note: no browser could be opened; open the address yourself\n")?;
    }
    site.serve()
}

/// Asks the system to show an address in its browser.
fn open_browser(url: &str) -> io::Result<()> {
    let (program, first): (&str, &[&str]) = if cfg!(target_os = "macos") {
        ("open", &[])
    } else if cfg!(target_os = "windows") {
        ("cmd", &["/C", "start"])
    } else {
        ("xdg-open", &[])
    };
    let mut child = Command::new(program);
    child.args(first).arg(url);
    child.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().map(drop)
}

/// The live page with its port open, not answering yet.
pub struct PageSite {
    listener: TcpListener,
    address: SocketAddr,
    settings: Settings,
}

impl std::fmt::Debug for PageSite {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Site").field("address", &self.address).finish_non_exhaustive()
    }
}

impl PageSite {
    /// Opens the port; 0 for any that is free. Saves go into `folder`.
    pub(crate) fn open(
        folder: &Path,
        file: Option<&Path>,
        (address, port): (IpAddr, u16),
        run: RunCommand,
    ) -> Result<Self, Failure> {
        let start = match file {
            Some(file) => {
                let name = file.file_name().map_or_else(String::new, |n| n.display().to_string());
                Some((name, ask::scenario(file)?))
            }
            None => None,
        };
        let asked = SocketAddr::new(address, port);
        let failed = |cause| Failure::Listen { address: asked, cause };
        let listener = TcpListener::bind(asked).map_err(failed)?;
        listener.set_nonblocking(true).map_err(failed)?;
        let address = listener.local_addr().map_err(failed)?;
        let root = fs::canonicalize(folder)
            .map_err(|cause| Failure::Folder { path: folder.to_owned(), cause })?;
        let tools = Arc::new(Commands::new(root.clone(), run));
        let shelf = Arc::new(Folder { root });
        let settings = Settings { shelf, tools, start, port: address.port() };
        Ok(Self { listener, address, settings })
    }

    /// Where it answers.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// Answers requests until the program ends.
    pub(crate) fn serve(self) -> Result<(), Failure> {
        let failed = |address| move |cause| Failure::Listen { address, cause };
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_io()
            .enable_time()
            .build()
            .map_err(failed(self.address))?;
        runtime.block_on(async {
            let listener =
                tokio::net::TcpListener::from_std(self.listener).map_err(failed(self.address))?;
            serve::serve(listener, page::router(self.settings)).await
        })
    }

    /// Answers requests on a thread of its own until the program ends.
    pub fn serve_aside(self) {
        std::thread::spawn(move || drop(self.serve()));
    }
}

/// A folder on disk.
struct Folder {
    root: PathBuf,
}

impl Shelf for Folder {
    fn list(&self) -> Vec<String> {
        let Ok(entries) = fs::read_dir(&self.root) else { return Vec::new() };
        let mut names: Vec<String> = entries
            .filter_map(Result::ok)
            .filter(|entry| entry.path().is_file())
            .filter_map(|entry| entry.file_name().into_string().ok())
            .filter(|name| Path::new(name).extension().is_some_and(|ending| ending == "toml"))
            .collect();
        names.sort();
        names
    }

    fn read(&self, path: &Path) -> io::Result<String> {
        let path = fs::canonicalize(self.root.join(path))?;
        if !path.starts_with(&self.root) {
            return Err(io::ErrorKind::PermissionDenied.into());
        }
        // A pipe or a device could keep its reader for ever.
        if !fs::metadata(&path)?.is_file() {
            return Err(io::ErrorKind::InvalidInput.into());
        }
        shelf::text(&path)
    }

    fn save(&self, name: &str, text: &str) -> io::Result<()> {
        shelf::create(&self.root.join(name), text.as_bytes())
    }
}
