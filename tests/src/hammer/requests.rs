//! Requests to a page, over one connection as long as it lasts.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::time::{Duration, Instant};

use super::reply::Reply;

/// How long a stream is listened to before the visitor goes. Chosen: a link may ask for
/// millions of flights, and a page tells how long they take.
const PATIENCE: Duration = Duration::from_secs(20);
/// What a form is, unless said.
const FORM: &str = "application/x-www-form-urlencoded";

/// Somebody who sends requests and minds the answers.
pub struct Visitor {
    address: SocketAddr,
    stream: Option<BufReader<TcpStream>>,
}

impl Visitor {
    /// Of the page at an address.
    pub fn new(address: SocketAddr) -> Self {
        Self { address, stream: None }
    }

    /// Sends a request made of bytes: its first line is a path and, behind a space, what
    /// kind of form the other lines are; without other lines it is a link. Gives the
    /// answer, whole; none where the page hung up without one, as it may on what is no
    /// request.
    ///
    /// # Panics
    /// Where the page is gone, or the answer is no answer.
    #[expect(clippy::expect_used, reason = "a page that is gone should stop a test")]
    pub fn send(&mut self, bytes: &[u8]) -> Option<Reply> {
        let request = request(self.address, bytes);
        let mut stream = self.stream.take().unwrap_or_else(|| {
            let stream = TcpStream::connect(self.address).expect("the page answers");
            let patience = stream.set_read_timeout(Some(Duration::from_mins(2)));
            patience.expect("a connection");
            BufReader::new(stream)
        });
        stream.get_mut().write_all(&request).ok()?;
        let mut head = String::new();
        while !head.ends_with("\r\n\r\n") {
            let count = stream.read_line(&mut head).ok()?;
            if count == 0 {
                return None;
            }
        }
        let head = head.to_lowercase();
        let of =
            |name: &str| head.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(": "));
        let kind = of("content-type").unwrap_or_default().to_owned();
        let code = head.split(' ').nth(1)?.parse().ok()?;
        let (body, whole) = if of("transfer-encoding") == Some("chunked") {
            chunks(&mut stream)
        } else {
            let length = of("content-length").and_then(|length| length.parse().ok())?;
            let mut body = vec![0; length];
            let whole = stream.read_exact(&mut body).is_ok();
            assert!(whole, "an answer of {length} bytes is not whole: {bytes:?}");
            (body, whole)
        };
        if whole && of("connection") != Some("close") {
            self.stream = Some(stream);
        }
        let reply = Reply { code, kind, body: String::from_utf8_lossy(&body).into_owned(), whole };
        reply.mind(&String::from_utf8_lossy(&request));
        Some(reply)
    }
}

/// The request that bytes make.
fn request(address: SocketAddr, bytes: &[u8]) -> Vec<u8> {
    let mut parts = bytes.splitn(2, |byte| *byte == b'\n');
    let first = String::from_utf8_lossy(parts.next().unwrap_or_default()).into_owned();
    let form = parts.next().unwrap_or_default();
    let (path, kind) = first.split_once(' ').unwrap_or((&first, ""));
    let plain = |text: &str| -> String {
        text.chars().map(|letter| if letter.is_ascii_graphic() { letter } else { '+' }).collect()
    };
    let path = plain(path.trim_start_matches('/'));
    if form.is_empty() {
        return format!("GET /{path} HTTP/1.1\r\nHost: {address}\r\n\r\n").into_bytes();
    }
    let kind = if kind.is_empty() { FORM.to_owned() } else { plain(kind) };
    let length = form.len();
    let mut request = format!(
        "POST /{path} HTTP/1.1\r\nHost: {address}\r\nOrigin: http://{address}\r\n\
         Content-Type: {kind}\r\nContent-Length: {length}\r\n\r\n"
    )
    .into_bytes();
    request.extend_from_slice(form);
    request
}

/// The body of an answer that comes bit by bit, and whether it came to its end within the
/// visitor's patience.
fn chunks(stream: &mut BufReader<TcpStream>) -> (Vec<u8>, bool) {
    let (mut body, mut size, began) = (Vec::new(), String::new(), Instant::now());
    loop {
        size.clear();
        let read = stream.read_line(&mut size);
        let count = usize::from_str_radix(size.trim(), 16);
        let (Ok(1..), Ok(count)) = (read, count) else { panic!("a chunk of {size:?}") };
        let mut chunk = vec![0; count + 2];
        let whole = stream.read_exact(&mut chunk).is_ok();
        assert!(whole && chunk.ends_with(b"\r\n"), "a chunk of {count} bytes is not whole");
        body.extend_from_slice(&chunk[..count]);
        if count == 0 || began.elapsed() > PATIENCE {
            return (body, count == 0);
        }
    }
}
