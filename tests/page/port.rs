//! The page's port: nobody keeps others out by doing nothing.
#![allow(clippy::print_stdout, reason = "the counts of a hard run")]

use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use clothyard_tests::browser::{get, live, post, send};
use clothyard_tests::program::{Folder, hard};

use crate::site;

/// A page in a process of its own, ended when dropped.
struct Apart(Child, SocketAddr);

impl Apart {
    fn start(folder: &Folder) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_program"))
            .args(["page", "--port", "0"])
            .current_dir(folder.at(""))
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let (mut said, mut piece) = (String::new(), [0; 256]);
        let out = child.stdout.as_mut().unwrap();
        while !said.contains("/\n") {
            let count = out.read(&mut piece).unwrap();
            assert!(count > 0, "{said}");
            said.push_str(&String::from_utf8_lossy(&piece[..count]));
        }
        let address = said.split("http://").nth(1).unwrap().split('/').next().unwrap();
        Self(child, address.parse().unwrap())
    }
}

impl Drop for Apart {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// Connections that say nothing, or half of something.
fn idlers(address: SocketAddr, count: usize) -> Vec<TcpStream> {
    let begin = |at: usize| -> std::io::Result<TcpStream> {
        let mut stream = TcpStream::connect(address)?;
        let half: &[u8] = match at % 3 {
            0 => b"",
            1 => b"GET / HTTP/1.1\r\nHost: ",
            _ => b"POST /save HTTP/1.1\r\nContent-Length: 99\r\n\r\nname=",
        };
        stream.write_all(half)?;
        Ok(stream)
    };
    (0..count).filter_map(|at| begin(at).ok()).collect()
}

/// The program once ended when it ran out of file descriptors, which takes no more
/// than a page opened a thousand times.
#[test]
fn regress_a_visitor_is_served_beside_a_thousand_who_say_nothing() {
    let folder = Folder::new("crowd");
    let site = Apart::start(&folder);
    let (count, length) =
        if hard() { (1100, Duration::from_mins(1)) } else { (300, Duration::ZERO) };
    let began = Instant::now();
    let mut crowd = idlers(site.1, count);
    let mut served = 0;
    loop {
        for path in ["/", "/page.js"] {
            assert_eq!(get(site.1, path).unwrap().0, 200);
            served += 1;
        }
        if began.elapsed() >= length {
            break;
        }
        // Whoever was sent away comes again.
        crowd.retain(|stream| {
            stream.set_nonblocking(true).unwrap();
            let gone = (&*stream).read(&mut [0; 64]).is_ok();
            !gone
        });
        let missing = count - crowd.len();
        crowd.extend(idlers(site.1, missing));
        std::thread::sleep(Duration::from_millis(500));
    }
    println!("{served} answers beside {count} idle connections in {:.0?}", began.elapsed());
}

#[test]
fn law_a_connection_that_says_nothing_is_ended() {
    let (_folder, address) = site("silent");
    for mut stream in idlers(address, 3) {
        stream.set_read_timeout(Some(Duration::from_mins(1))).unwrap();
        let mut said = Vec::new();
        // Until the page hangs up; half a form is told that it came too late.
        let _ = stream.read_to_end(&mut said);
        let said = String::from_utf8_lossy(&said);
        assert!(said.is_empty() || said.starts_with("HTTP/1.1 408 "), "{said}");
    }
}

#[test]
fn law_an_idle_connection_that_was_served_once_is_ended() {
    let (_folder, address) = site("served-once");
    let mut stream = TcpStream::connect(address).unwrap();
    write!(stream, "GET /page.js HTTP/1.1\r\nHost: {address}\r\n\r\n").unwrap();
    stream.set_read_timeout(Some(Duration::from_mins(1))).unwrap();
    let mut said = Vec::new();
    stream.read_to_end(&mut said).unwrap();
    assert!(said.starts_with(b"HTTP/1.1 200 "));
}

/// A pipe in the folder once stopped the page for good, and a long file of unknown
/// keys for minutes.
#[test]
fn regress_no_file_of_the_folder_stops_the_page() {
    let (folder, address) = site("files");
    #[cfg(unix)]
    assert!(Command::new("mkfifo").arg(folder.at("pipe.toml")).status().unwrap().success());
    std::fs::create_dir(folder.at("folder.toml")).unwrap();
    let unknown: Vec<String> = (0..60_000).map(|key| format!("key{key} = 1")).collect();
    let unknown = unknown.join("\n") + "\n";
    folder.write("unknown.toml", &unknown);
    folder.write("large.toml", &"#".repeat(2 << 20));
    for name in ["pipe.toml", "folder.toml", "large.toml"] {
        assert_eq!(get(address, &format!("/?from={name}")).unwrap().0, 404, "{name}");
    }
    let (code, said) = get(address, "/?from=unknown.toml").unwrap();
    assert_eq!(code, 422);
    assert!(said.contains(" more mistakes are not shown"), "{said:.2000}");
    let list = get(address, "/").unwrap().1;
    assert!(list.contains("unknown.toml") && !list.contains("pipe.toml"));
}

#[test]
fn law_a_name_that_could_harm_elsewhere_is_not_saved() {
    let (folder, address) = site("names");
    for name in ["-rf.toml", "CON.toml", "nul.x.toml", "lpt1.toml", "com7 .toml", "..toml"] {
        let (code, said) =
            post(address, "/save", &format!("name={}", name.replace(' ', "+"))).unwrap();
        assert_eq!(code, 422, "{name}: {said}");
    }
    assert!(folder.files().is_empty());
    for name in ["console.toml", "a-b.toml", "com10.toml"] {
        assert_eq!(post(address, "/save", &format!("name={name}")).unwrap().0, 201, "{name}");
    }
}

#[test]
fn law_the_name_of_this_computer_may_be_shouted() {
    let (_folder, address) = site("shouted");
    let ask = |host: &str, origin: &str| {
        let port = address.port();
        send(
            address,
            &format!(
                "POST /gauge HTTP/1.1\r\nHost: {host}:{port}\r\nOrigin: {origin}:{port}\r\n\
                 Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 0\r\n\
                 Connection: close\r\n\r\n"
            ),
        )
        .unwrap()
        .0
    };
    assert_ne!(ask("LOCALHOST", "http://localhost"), 421);
    assert_ne!(ask("LOCALHOST", "http://localhost"), 403);
    assert_eq!(ask("LOCALHOST.example", "http://localhost"), 421);
    assert_eq!(ask("LOCALHOST", "http://localhost.example"), 403);
}

/// Who waits is told how many come first, and is answered in turn.
#[test]
fn law_the_queue_is_told_to_those_who_wait() {
    let (_folder, address) = site("queue");
    let ask = |visit: usize| {
        std::thread::spawn(move || {
            live(address, &format!("from=fingers&visit=visitor-{visit}"), 2).unwrap()
        })
    };
    // Two seats, more who want one, and an answer that takes seconds.
    let visitors: Vec<_> = (0..6).map(ask).collect();
    let mut told = String::new();
    for visitor in visitors {
        let (code, events) = visitor.join().unwrap();
        let (name, last) = events.last().unwrap();
        assert!(code == 200 && name == "answer" && last["last"] == true, "{code} {name}");
        let waits = events.iter().filter(|(name, _)| name == "pace");
        waits.for_each(|(_, data)| told.push_str(data["text"].as_str().unwrap()));
    }
    assert!(told.contains("before yours; it is answered when its turn comes"), "{told}");
}
