//! Requests to a page, over one connection as long as it lasts.

use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::time::Duration;

/// Somebody who sends requests and minds the answers.
pub struct Visitor {
    address: SocketAddr,
    stream: Option<TcpStream>,
}

impl Visitor {
    /// Of the page at an address.
    pub fn new(address: SocketAddr) -> Self {
        Self { address, stream: None }
    }

    /// Sends a request made of bytes: the first line is its path or, behind a
    /// space, a form, and gives the status of the answer; none where the page hung
    /// up without one, as it may on what is no request.
    ///
    /// # Panics
    /// Where the page is gone.
    #[expect(clippy::expect_used, reason = "a page that is gone should stop a test")]
    pub fn send(&mut self, bytes: &[u8]) -> Option<u16> {
        let text = String::from_utf8_lossy(bytes);
        let (first, form) = text.split_once('\n').unwrap_or((&text, ""));
        let address = self.address;
        let path: String = first
            .chars()
            .map(|letter| if letter.is_ascii_graphic() { letter } else { '+' })
            .collect();
        let path = if path.starts_with('/') { path } else { format!("/{path}") };
        let request = if form.is_empty() {
            format!("GET {path} HTTP/1.1\r\nHost: {address}\r\n\r\n")
        } else {
            let length = form.len();
            format!(
                "POST {path} HTTP/1.1\r\nHost: {address}\r\nOrigin: http://{address}\r\n\
                 Content-Type: application/x-www-form-urlencoded\r\n\
                 Content-Length: {length}\r\n\r\n{form}"
            )
        };
        let mut stream = self.stream.take().unwrap_or_else(|| {
            let stream = TcpStream::connect(address).expect("the page answers");
            let patience = stream.set_read_timeout(Some(Duration::from_mins(2)));
            patience.expect("a connection");
            stream
        });
        stream.write_all(request.as_bytes()).ok()?;
        let (mut seen, mut piece) = (Vec::new(), [0; 1 << 14]);
        loop {
            let count = stream.read(&mut piece).ok().filter(|count| *count > 0)?;
            seen.extend_from_slice(&piece[..count]);
            let Some(end) = seen.windows(4).position(|four| four == b"\r\n\r\n") else { continue };
            let head = String::from_utf8_lossy(&seen[..end]).to_lowercase();
            let length = head.lines().find_map(|line| line.strip_prefix("content-length:"));
            let length: usize = length.and_then(|length| length.trim().parse().ok()).unwrap_or(0);
            if seen.len() >= end + 4 + length {
                if !head.contains("connection: close") {
                    self.stream = Some(stream);
                }
                return head.split(' ').nth(1)?.parse().ok();
            }
        }
    }
}
