//! The page's port: connections come and go, and none stays for nothing.

use std::collections::BTreeMap;
use std::convert::Infallible;
use std::io;
use std::pin::Pin;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::task::{Context, Poll, ready};
use std::time::Duration;

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::extract::Request;
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use futures_util::StreamExt;
use hyper::body::Incoming;
use hyper::server::conn::http1;
use hyper::service::{Service, service_fn};
use hyper_util::rt::{TokioIo, TokioTimer};
use page::PageError;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::{TcpListener, TcpStream};
use tokio::task::AbortHandle;
use tokio::time::{Sleep, sleep, timeout};

/// Connections at once. Chosen: a club night of visitors, and half of what the
/// strictest of common systems lets a program open.
const MOST: usize = 128;
/// For a request's head, from the first moment or from the answer before. Chosen:
/// a slow phone is done in a second.
const HEAD: Duration = Duration::from_secs(10);
/// For a request's body. Chosen: as for the head.
const BODY: Duration = Duration::from_secs(10);
/// For the other side to take some more of an answer. Chosen: a phone in a pocket
/// of bad reception.
const STALL: Duration = Duration::from_secs(30);
/// Before the next try where the system hands out no connection. Chosen.
const PAUSE: Duration = Duration::from_millis(50);
/// An answer that comes bit by bit.
const EVENTS: &[u8] = b"text/event-stream";
/// What a visitor is told where every connection is at work.
const FULL: &[u8] = b"HTTP/1.1 503 Service Unavailable\r\nContent-Type: text/plain\r\n\
    Content-Length: 43\r\nRetry-After: 2\r\nConnection: close\r\n\r\n\
    too many requests wait; try again in a bit\n";

/// Answers requests until the program ends.
pub(crate) async fn serve(listener: TcpListener, router: Router) -> ! {
    let crowd = Arc::new(Crowd::default());
    let mut next: u64 = 0;
    loop {
        let Ok((stream, _)) = listener.accept().await else {
            // The system is out of something: whoever only waits makes room.
            crowd.dismiss_idle();
            sleep(PAUSE).await;
            continue;
        };
        if crowd.full() && !crowd.dismiss_idle() {
            let _ = stream.try_write(FULL);
            continue;
        }
        next += 1;
        let guest = Guest { crowd: Arc::clone(&crowd), number: next, busy: Arc::default() };
        let busy = Arc::clone(&guest.busy);
        let task = tokio::spawn(connection(stream, router.clone(), guest));
        crowd.list(|list| list.insert(next, (task.abort_handle(), busy)));
    }
}

/// Everybody who is connected, in the order in which they came.
#[derive(Default)]
struct Crowd(Mutex<BTreeMap<u64, (AbortHandle, Arc<AtomicBool>)>>);

impl Crowd {
    fn list<T>(
        &self,
        work: impl FnOnce(&mut BTreeMap<u64, (AbortHandle, Arc<AtomicBool>)>) -> T,
    ) -> T {
        work(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }

    fn full(&self) -> bool {
        self.list(|list| list.len() >= MOST)
    }

    /// Ends the oldest connection without a request; says whether there was one.
    fn dismiss_idle(&self) -> bool {
        self.list(|list| {
            let idle = list.iter().find(|(_, (_, busy))| !busy.load(Ordering::Relaxed));
            let Some(number) = idle.map(|(number, _)| *number) else { return false };
            if let Some((task, _)) = list.remove(&number) {
                task.abort();
            }
            true
        })
    }
}

/// One of the crowd; leaves it when dropped.
struct Guest {
    crowd: Arc<Crowd>,
    number: u64,
    /// Whether a whole request came and is not answered yet.
    busy: Arc<AtomicBool>,
}

impl Drop for Guest {
    fn drop(&mut self) {
        self.crowd.list(|list| list.remove(&self.number));
    }
}

/// Answers the requests of one connection.
async fn connection(stream: TcpStream, router: Router, guest: Guest) {
    let service = service_fn(|request| {
        let (router, busy) = (router.clone(), Arc::clone(&guest.busy));
        async move { Ok::<_, Infallible>(answer(request, router, &busy).await) }
    });
    let io = TokioIo::new(Unstalled { stream, waiting: None });
    let mut server = http1::Builder::new();
    server.timer(TokioTimer::new()).header_read_timeout(HEAD);
    // A connection that broke has nobody to tell.
    let _ = server.serve_connection(io, service).await;
}

/// Waits for the whole request, then for its answer.
async fn answer(request: Request<Incoming>, router: Router, busy: &Arc<AtomicBool>) -> Response {
    let (head, body) = request.into_parts();
    let most = page::longest(head.uri.path());
    let body = match timeout(BODY, to_bytes(Body::new(body), most)).await {
        Ok(Ok(body)) => body,
        Ok(Err(_)) => return PageError::TooLong { length: most + 1, most }.into_response(),
        Err(_) => return PageError::TooSlow { seconds: BODY.as_secs() }.into_response(),
    };
    let work = AtWork::begin(busy);
    let request = Request::from_parts(head, Body::from(body));
    let answer = hyper_util::service::TowerToHyperService::new(router).call(request).await;
    let answer = match answer {
        Ok(answer) => answer,
        Err(never) => match never {},
    };
    let kind = answer.headers().get(CONTENT_TYPE);
    if kind.is_none_or(|kind| kind.as_bytes() != EVENTS) {
        return answer;
    }
    // A stream is at work until its end.
    answer.map(|body| {
        Body::from_stream(body.into_data_stream().inspect(move |_| {
            let _ = &work;
        }))
    })
}

/// A connection whose request is not answered yet, until this is dropped.
struct AtWork(Arc<AtomicBool>);

impl AtWork {
    fn begin(busy: &Arc<AtomicBool>) -> Self {
        busy.store(true, Ordering::Relaxed);
        Self(Arc::clone(busy))
    }
}

impl Drop for AtWork {
    fn drop(&mut self) {
        self.0.store(false, Ordering::Relaxed);
    }
}

/// A connection that ends where its other side takes nothing any more.
struct Unstalled {
    stream: TcpStream,
    waiting: Option<Pin<Box<Sleep>>>,
}

impl Unstalled {
    fn watch<T>(&mut self, cx: &mut Context, done: Poll<io::Result<T>>) -> Poll<io::Result<T>> {
        if done.is_ready() {
            self.waiting = None;
            return done;
        }
        let waiting = self.waiting.get_or_insert_with(|| Box::pin(sleep(STALL)));
        ready!(waiting.as_mut().poll(cx));
        Poll::Ready(Err(io::ErrorKind::TimedOut.into()))
    }
}

impl AsyncRead for Unstalled {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context,
        buffer: &mut ReadBuf,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_read(cx, buffer)
    }
}

impl AsyncWrite for Unstalled {
    fn poll_write(
        mut self: Pin<&mut Self>,
        cx: &mut Context,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        let done = Pin::new(&mut self.stream).poll_write(cx, bytes);
        self.watch(cx, done)
    }

    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context) -> Poll<io::Result<()>> {
        let done = Pin::new(&mut self.stream).poll_flush(cx);
        self.watch(cx, done)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context) -> Poll<io::Result<()>> {
        let done = Pin::new(&mut self.stream).poll_shutdown(cx);
        self.watch(cx, done)
    }
}
