//! Serving the page: to this machine alone, to those who know the secret, and to no page of another origin.

use super::follow::follow;
use super::room::Room;
use super::route::{Answer, answer};
use super::watch::{Wake, Watch};
use super::{MOST_LAYOUTS, Setup};
use std::io::{self, Write};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;
use tiny_http::{Method, Request, Server};

/// Threads that answer.
const ANSWERING: usize = 4;
/// So often a page that listens is sent a sign of life, so that one that has gone is noticed.
const SIGN_OF_LIFE: Duration = Duration::from_secs(15);

/// What the page may load: its own files, and nothing else.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; \
                      connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// What every answer says of itself.
const HEADERS: &str = "Connection: close\r\nCache-Control: no-store\r\nX-Content-Type-Options: nosniff\r\n\
                       Referrer-Policy: no-referrer\r\nCross-Origin-Resource-Policy: same-origin\r\n";

/// A desk that is served.
pub struct Desk {
    door: Arc<Door>,
}

struct Door {
    server: Server,
    room: Room,
    secret: String,
    port: u16,
}

impl Desk {
    /// Begins to follow the layouts and to serve the page.
    ///
    /// # Errors
    /// A sentence, if there are too many layouts, the port is taken, or the system gives no secret.
    pub fn start(setup: Setup) -> Result<Self, String> {
        if setup.layouts.len() > MOST_LAYOUTS {
            return Err(format!("at most {MOST_LAYOUTS} layouts lie on one desk"));
        }
        let port = setup.port;
        let server = Server::http(("127.0.0.1", port)).map_err(|error| match port {
            0 => format!("no port of this machine can be had: {error}"),
            _ => format!("port {port} can't be had: {error}; leave `--port` out for any that is free"),
        })?;
        let port = server.server_addr().to_ip().map_or(port, |address| address.port());
        let door = Arc::new(Door { server, room: Room::new(setup), secret: secret()?, port });
        let (wakes, woken): (Vec<Wake>, Vec<Receiver<()>>) = door
            .room
            .seats
            .iter()
            .map(|seat| {
                let (begin, woken) = channel();
                (Wake { stop: seat.session.stop(), begin }, woken)
            })
            .unzip();
        let watch = Arc::new(Watch::new(wakes));
        for (layout, woken) in woken.into_iter().enumerate() {
            let (door, watch) = (Arc::clone(&door), Arc::clone(&watch));
            thread::spawn(move || follow(&door.room, &watch, layout, &woken));
        }
        Ok(Self { door })
    }

    /// The address of the page, with its secret.
    #[must_use]
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/{}/", self.door.port, self.door.secret)
    }

    /// Answers until the process ends.
    pub fn serve(&self) {
        thread::scope(|scope| {
            for _ in 0..ANSWERING {
                scope.spawn(|| self.door.answer_all());
            }
        });
    }
}

impl Door {
    fn answer_all(self: &Arc<Self>) {
        while let Ok(request) = self.server.recv() {
            // A page that has gone does not hear its answer; that is its matter.
            let _ = self.one(request);
        }
    }

    fn one(self: &Arc<Self>, request: Request) -> io::Result<()> {
        let Some(path) = self.allowed(&request) else {
            return respond(request, &Answer::missing());
        };
        if path == "events" {
            let door = Arc::clone(self);
            return match self.room.hub.listen() {
                Some(news) => {
                    thread::spawn(move || _ = door.stream(request, &news));
                    Ok(())
                }
                None => respond(request, &Answer { status: 503, ..Answer::missing() }),
            };
        }
        respond(request, &answer(&self.room, &path))
    }

    /// The path below the secret, of a request that may be answered.
    fn allowed(&self, request: &Request) -> Option<String> {
        let value = |name: &'static str| {
            request.headers().iter().find(|header| header.field.equiv(name)).map(|header| header.value.as_str())
        };
        let host = [format!("127.0.0.1:{}", self.port), format!("localhost:{}", self.port)];
        let own_host = value("Host").is_some_and(|name| host.iter().any(|own| own == name));
        let own_origin = value("Origin").is_none_or(|name| host.iter().any(|own| format!("http://{own}") == name));
        let own_site = value("Sec-Fetch-Site").is_none_or(|site| site == "same-origin" || site == "none");
        let get = *request.method() == Method::Get;
        let path = request.url().split(['?', '#']).next()?.strip_prefix('/')?;
        let (secret, path) = path.split_once('/')?;
        let known = same(secret.as_bytes(), self.secret.as_bytes());
        (get && known && own_host && own_origin && own_site).then(|| path.to_owned())
    }

    /// Tells a page what comes, until it goes.
    fn stream(&self, request: Request, news: &Receiver<String>) -> io::Result<()> {
        let mut page = request.into_writer();
        write!(page, "HTTP/1.1 200 OK\r\nContent-Type: text/event-stream\r\n{HEADERS}\r\n")?;
        write!(page, "data: {{\"what\":\"hello\"}}\n\n")?;
        page.flush()?;
        loop {
            match news.recv_timeout(SIGN_OF_LIFE) {
                Ok(line) => write!(page, "data: {line}\n\n")?,
                Err(RecvTimeoutError::Timeout) => write!(page, ": here\n\n")?,
                Err(RecvTimeoutError::Disconnected) => return Ok(()),
            }
            page.flush()?;
        }
    }
}

/// Compares in a time that does not tell how much is right.
fn same(a: &[u8], b: &[u8]) -> bool {
    a.len() == b.len() && a.iter().zip(b).fold(0, |differ, (a, b)| differ | (a ^ b)) == 0
}

/// 128 bits that nobody can guess, in hexadecimal figures.
fn secret() -> Result<String, String> {
    let mut bytes = [0; 16];
    getrandom::fill(&mut bytes).map_err(|error| format!("the system gives no random figures: {error}"))?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

/// Writes an answer and ends the connection: a browser that keeps several open would wait for threads that wait for it.
fn respond(request: Request, answer: &Answer) -> io::Result<()> {
    let mut page = request.into_writer();
    let Answer { status, kind, bytes } = answer;
    let reason = if *status == 200 { "OK" } else { "No" };
    write!(page, "HTTP/1.1 {status} {reason}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\n", bytes.len())?;
    write!(page, "{HEADERS}Content-Security-Policy: {POLICY}\r\n\r\n")?;
    page.write_all(bytes)?;
    page.flush()
}
