//! Forms that take minutes: who waits, who is told, who leaves.

use std::net::SocketAddr;

use clothyard_tests::browser::get;

use crate::site;
use crate::tools::{asked, encoded};

/// A form of the bench that takes minutes, as it is sent.
fn minutes(address: SocketAddr, ticket: &str) -> String {
    let head = "arrow,where,stage,gauge,reading [mm],step [mm],across [mm]\n";
    let row = |arrow: usize| format!("{arrow},front,as sawn,leaf,0.05,0.01,6.2\n");
    let table: String = (1..3_000).map(row).collect();
    let table = encoded(&(head.to_owned() + &table));
    let form = format!("from=squaring&t.ticket={ticket}&t.readings={table}");
    format!(
        "POST /tools/bench-square HTTP/1.1\r\nHost: {address}\r\nOrigin: http://{address}\r\n\
         Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{form}",
        form.len()
    )
}

/// Who waits behind a form that takes minutes is told so, and comes when that is gone.
#[test]
fn law_who_waits_is_told_who_comes_first() {
    use std::io::Write;
    let (_folder, address) = site("line");
    let first = |ticket: &str| get(address, &format!("/tools/queue?t.ticket={ticket}")).unwrap().1;
    let until = |ticket: &str, wanted: &str| {
        let began = std::time::Instant::now();
        while first(ticket) != wanted {
            assert!(began.elapsed().as_secs() < 60, "{ticket}: {}", first(ticket));
            std::thread::sleep(std::time::Duration::from_millis(20));
        }
    };
    let ask = |ticket: &str| {
        let mut stream = std::net::TcpStream::connect(address).unwrap();
        stream.write_all(minutes(address, ticket).as_bytes()).unwrap();
        stream
    };
    let one = ask("one");
    until("one", "It is at work.");
    let two = ask("two");
    until("two", "One other that flies arrows comes first.");
    let three = ask("three");
    until("three", "2 others that fly arrows come first.");
    drop(one);
    until("two", "It is at work.");
    until("one", "");
    drop((two, three));
    until("three", "");
}

/// Whoever hangs up ends the work of a form, and who comes next does not wait for it: this
/// table takes minutes.
#[test]
fn law_a_form_ends_with_its_visitor() {
    use std::io::Write;
    let (_folder, address) = site("left");
    let request = minutes(address, "");
    for _ in 0..20 {
        let mut stream = std::net::TcpStream::connect(address).unwrap();
        stream.write_all(request.as_bytes()).unwrap();
        // Beside it there is a seat for the page, and a desk for what flies nothing.
        assert_eq!(get(address, "/?from=squaring").unwrap().0, 200);
        assert_eq!(asked(address, "bench-columns", "t.kind=three").1.len(), 0);
    }
    assert!(asked(address, "arrow", "from=squaring").0.contains("FOC"));
}
