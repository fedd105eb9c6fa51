//! A real browser, driven over its debugging socket.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

use serde_json::{Value, json};
use tungstenite::protocol::WebSocket;
use tungstenite::{Message, client};

/// Where a browser may be, Debian's first.
const PLACES: [&str; 4] = [
    "/usr/bin/chromium",
    "/usr/bin/chromium-browser",
    "/usr/bin/google-chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
];

/// A browser without a window, ended when dropped.
pub struct Browser {
    child: Child,
    profile: PathBuf,
    socket: WebSocket<TcpStream>,
    count: u64,
    /// Addresses the page asked for.
    pub asked: Vec<String>,
}

impl Browser {
    /// Starts one.
    ///
    /// # Panics
    /// When there is none, or it cannot be talked to.
    #[expect(clippy::expect_used, reason = "a test that cannot begin stops")]
    pub fn start(name: &str) -> Self {
        let program = PLACES
            .into_iter()
            .find(|place| fs::exists(place).unwrap_or(false))
            .expect("a Chromium on this machine");
        let profile =
            std::env::temp_dir().join(format!("clothyard-browser-{}-{name}", std::process::id()));
        let child = Command::new(program)
            .args(["--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run"])
            .args(["--disable-background-networking", "--disable-component-update"])
            .args(["--remote-debugging-port=0", "--hide-scrollbars"])
            .arg(format!("--user-data-dir={}", profile.display()))
            .arg("about:blank")
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the browser starts");
        let port = wait(|| {
            let text = fs::read_to_string(profile.join("DevToolsActivePort")).ok()?;
            text.lines().next()?.parse::<u16>().ok()
        });
        let address = SocketAddr::from(([127, 0, 0, 1], port));
        let path = wait(|| {
            let list: Value = serde_json::from_str(&get(address, "/json/list").ok()?.1).ok()?;
            let page = list.as_array()?.iter().find(|target| target["type"] == "page")?;
            Some(page["webSocketDebuggerUrl"].as_str()?.to_owned())
        });
        let stream = TcpStream::connect(address).expect("the browser's socket");
        let (socket, _) = client(path, stream).expect("the browser's answer");
        let mut browser = Self { child, profile, socket, count: 0, asked: Vec::new() };
        browser.call("Network.enable", &json!({}));
        browser.call("Page.enable", &json!({}));
        browser
    }

    /// Calls a method and gives its result.
    ///
    /// # Panics
    /// When the browser refuses.
    #[expect(clippy::expect_used, reason = "a browser that is gone should stop a test")]
    pub fn call(&mut self, method: &str, params: &Value) -> Value {
        self.count += 1;
        let call = json!({ "id": self.count, "method": method, "params": params });
        self.socket.send(Message::text(call.to_string())).expect("the browser listens");
        loop {
            let Message::Text(text) = self.socket.read().expect("the browser answers") else {
                continue;
            };
            let said: Value = serde_json::from_str(&text).expect("JSON");
            if said["method"] == "Network.requestWillBeSent" {
                let url = said["params"]["request"]["url"].as_str().unwrap_or_default();
                self.asked.push(url.to_owned());
            }
            if said["id"] == self.count {
                assert!(said["error"].is_null(), "{method}: {}", said["error"]);
                return said["result"].clone();
            }
        }
    }

    /// Makes the screen this wide and high, light or dark.
    pub fn screen(&mut self, width: u32, height: u32, dark: bool) {
        let size = json!({ "width": width, "height": height, "deviceScaleFactor": 1,
            "mobile": width < 600 });
        self.call("Emulation.setDeviceMetricsOverride", &size);
        let scheme = if dark { "dark" } else { "light" };
        let features = json!([{ "name": "prefers-color-scheme", "value": scheme }]);
        self.call("Emulation.setEmulatedMedia", &json!({ "features": features }));
    }

    /// Opens an address and waits until the page has come to rest.
    pub fn open(&mut self, url: &str) {
        self.call("Page.navigate", &json!({ "url": url }));
        self.until("document.readyState === 'complete' && location.href !== 'about:blank'");
    }

    /// The value of an expression in the page.
    ///
    /// # Panics
    /// When the expression throws.
    pub fn value(&mut self, script: &str) -> Value {
        let asked = json!({ "expression": script, "awaitPromise": true, "returnByValue": true });
        let got = self.call("Runtime.evaluate", &asked);
        assert!(got["exceptionDetails"].is_null(), "{script}: {}", got["exceptionDetails"]);
        got["result"]["value"].clone()
    }

    /// Text of an expression.
    pub fn text(&mut self, script: &str) -> String {
        self.value(script).as_str().unwrap_or_default().to_owned()
    }

    /// Waits until an expression is true.
    ///
    /// # Panics
    /// When it is not within a minute.
    pub fn until(&mut self, script: &str) {
        let asked = json!({ "expression": format!("Boolean({script})"), "returnByValue": true });
        for _ in 0..1200 {
            // A page on its way has nothing to ask yet.
            if self.call("Runtime.evaluate", &asked)["result"]["value"] == true {
                return;
            }
            sleep(Duration::from_millis(50));
        }
        panic!("never true: {script}");
    }

    /// A picture of the whole page as PNG, in base 64.
    pub fn picture(&mut self) -> String {
        let asked = json!({ "format": "png", "captureBeyondViewport": true });
        let got = self.call("Page.captureScreenshot", &asked);
        got["data"].as_str().unwrap_or_default().to_owned()
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
        let _ = fs::remove_dir_all(&self.profile);
    }
}

/// Tries for half a minute.
fn wait<T>(mut found: impl FnMut() -> Option<T>) -> T {
    for _ in 0..600 {
        if let Some(found) = found() {
            return found;
        }
        sleep(Duration::from_millis(50));
    }
    panic!("the browser did not answer");
}

/// Status and body of a page.
///
/// # Errors
/// What the system says.
pub fn get(address: SocketAddr, path: &str) -> std::io::Result<(u16, String)> {
    send(address, &format!("GET {path} HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n"))
}

/// Status and body after a form is sent from the page's own origin.
///
/// # Errors
/// What the system says.
pub fn post(address: SocketAddr, path: &str, form: &str) -> std::io::Result<(u16, String)> {
    send(
        address,
        &format!(
            "POST {path} HTTP/1.1\r\nHost: {address}\r\nOrigin: http://{address}\r\n\
             Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\
             Connection: close\r\n\r\n{form}",
            form.len()
        ),
    )
}

/// Status and events of the page's stream for a form, until so many answers have come: then
/// it hangs up. A refusal is one event of that name, with its page for its text.
///
/// # Errors
/// What the system says, and what is no JSON.
pub fn live(
    address: SocketAddr,
    form: &str,
    most: usize,
) -> std::io::Result<(u16, Vec<(String, Value)>)> {
    let mut stream = BufReader::new(TcpStream::connect(address)?);
    stream.get_ref().set_read_timeout(Some(Duration::from_mins(1)))?;
    write!(
        stream.get_mut(),
        "POST /live HTTP/1.1\r\nHost: {address}\r\nOrigin: http://{address}\r\n\
         Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\
         Connection: close\r\n\r\n{form}",
        form.len()
    )?;
    let mut head = String::new();
    while !head.ends_with("\r\n\r\n") && stream.read_line(&mut head)? > 0 {}
    let status = head.split(' ').nth(1).and_then(|code| code.parse().ok()).unwrap_or(0);
    let mut events = Vec::new();
    if !head.to_ascii_lowercase().contains("transfer-encoding: chunked") {
        let mut body = String::new();
        stream.read_to_string(&mut body)?;
        return Ok((status, vec![("refused".to_owned(), Value::String(body))]));
    }
    let (mut text, mut size) = (String::new(), String::new());
    let answers = |events: &[(String, Value)]| events.iter().filter(|e| e.0 != "pace").count();
    while answers(&events) < most {
        size.clear();
        stream.read_line(&mut size)?;
        let count = usize::from_str_radix(size.trim(), 16).unwrap_or(0);
        if count == 0 {
            break;
        }
        let mut chunk = vec![0; count + 2];
        stream.read_exact(&mut chunk)?;
        text.push_str(&String::from_utf8_lossy(&chunk[..count]));
        while let Some((event, rest)) = text.split_once("\n\n") {
            let of = |name: &str| event.lines().find_map(|line| line.strip_prefix(name));
            if let (Some(name), Some(data)) = (of("event: "), of("data: ")) {
                events.push((name.to_owned(), serde_json::from_str(data)?));
            }
            text = rest.to_owned();
        }
    }
    Ok((status, events))
}

/// Status and body after these bytes are sent; the body holds no chunks.
///
/// # Errors
/// What the system says.
pub fn send(address: SocketAddr, request: &str) -> std::io::Result<(u16, String)> {
    let mut stream = TcpStream::connect(address)?;
    stream.write_all(request.as_bytes())?;
    stream.set_read_timeout(Some(Duration::from_mins(1)))?;
    let (mut bytes, mut piece) = (Vec::new(), [0; 16 * 1024]);
    // Not every server closes when it is done; one that refuses may close
    // before all was sent.
    while !whole(&bytes) {
        match stream.read(&mut piece) {
            Ok(0) | Err(_) => break,
            Ok(count) => bytes.extend_from_slice(&piece[..count]),
        }
    }
    let text = String::from_utf8_lossy(&bytes).into_owned();
    let (head, body) = text.split_once("\r\n\r\n").unwrap_or((&text, ""));
    let status = head.split(' ').nth(1).and_then(|code| code.parse().ok()).unwrap_or(0);
    Ok((status, body.to_owned()))
}

/// Whether an answer holds as many bytes as it says.
fn whole(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    let Some((head, _)) = text.split_once("\r\n\r\n") else { return false };
    let start = bytes.windows(4).position(|four| four == b"\r\n\r\n").map_or(0, |at| at + 4);
    let length = head.lines().find_map(|line| {
        let (name, value) = line.split_once(':')?;
        name.eq_ignore_ascii_case("content-length").then(|| value.trim().parse::<usize>().ok())?
    });
    length.is_some_and(|length| bytes.len() >= start + length)
}
