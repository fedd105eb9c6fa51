//! Requests the page does not take.

use clothyard_tests::browser::{get, post, send};

use crate::site;

#[test]
fn law_only_the_page_itself_may_ask() {
    let (folder, address) = site("asks");
    let ask = |method: &str, path: &str, heads: &str| {
        let text = format!(
            "{method} {path} HTTP/1.1\r\n{heads}Content-Type: application/x-www-form-urlencoded\r\n\
             Content-Length: 11\r\nConnection: close\r\n\r\nname=a.toml"
        );
        send(address, &text).unwrap().0
    };
    let here = format!("Host: {address}\r\n");
    let port = address.port();
    assert_eq!(ask("GET", "/page.js", &here), 200);
    assert_eq!(ask("GET", "/page.js", &format!("Host: localhost:{port}\r\n")), 200);
    for host in [
        format!("Host: clothyard.example:{port}\r\n"),
        "Host: 127.0.0.1:1\r\n".to_owned(),
        format!("Host: a@localhost:{port}\r\n"),
        format!("Host: localhost.example:{port}\r\n"),
    ] {
        assert_eq!(ask("GET", "/page.js", &host), 421, "{host}");
    }
    for origin in ["", "Origin: null\r\n", "Origin: http://evil.example\r\n"] {
        assert_eq!(ask("POST", "/save", &format!("{here}{origin}")), 403, "{origin}");
    }
    let cross = format!("{here}Sec-Fetch-Site: cross-site\r\n");
    assert_eq!(ask("GET", "/take/result.json", &cross), 403);
    let framed = format!("{cross}Sec-Fetch-Mode: no-cors\r\n");
    assert_eq!(ask("GET", "/", &framed), 403);
    assert!(folder.files().is_empty());
}

#[test]
fn law_a_malformed_request_is_told_what_is_wrong() {
    let (_folder, address) = site("malformed");
    let long = "x".repeat(9000);
    for (path, want) in [
        ("/nowhere", 404),
        ("/?colour=red", 400),
        ("/?point=100+gr&point=90+gr", 400),
        ("/?from=../x.toml", 422),
        ("/?from=none.toml", 404),
        ("/?units=cubits", 422),
        ("/?point=1+gr", 422),
        ("/?wind=900+mph", 422),
        ("/live", 405),
        ("/take/none.csv", 404),
        (&format!("/?point={long}"), 413),
        (&format!("/?point={}", &long[..50]), 413),
    ] {
        assert_eq!(get(address, path).unwrap().0, want, "{path:.40}");
    }
    for (form, want) in [
        ("point=100", 422),
        ("point=%22+gr", 422),
        ("point=1+gr", 422),
        ("flights=7", 400),
        ("visit=%3Cb%3E", 422),
        ("p.nothing=1", 400),
        ("point=%FF", 422),
        (&format!("aim={long}"), 413),
    ] {
        let (code, said) = post(address, "/live", form).unwrap();
        assert_eq!(code, want, "{form:.40}: {said}");
    }
    assert_eq!(send(address, "nonsense\r\n\r\n").unwrap().0, 400);
}

#[test]
fn law_a_mistake_names_its_field() {
    let (_folder, address) = site("field");
    for (form, field) in [
        ("point=100", "point"),
        ("point=1+gr", "point"),
        ("wind=900+mph", "wind"),
        ("at=900+yd", "at"),
        ("zone=0+in", "zone"),
        ("aim=-1+deg", "aim"),
        ("spine=0.3+gr", "spine"),
    ] {
        let (code, said) = post(address, "/live", form).unwrap();
        assert_eq!(code, 422, "{form}");
        assert!(said.contains(&format!("data-field=\"{field}\"")), "{form}: {said}");
    }
}

/// A spine typed as 340 was sent as 340 in, and refused.
#[test]
fn regress_a_bare_spine_is_thousandths() {
    let (_folder, address) = site("spine");
    for form in ["spine=340", "spine=.340", "spine=0.34+in"] {
        let (code, said) = post(address, "/live", form).unwrap();
        assert_eq!(code, 200, "{form}: {said}");
    }
    let (code, said) = post(address, "/live", "spine=34").unwrap();
    assert!(code == 422 && said.contains("a spine is written 340, .340"), "{said}");
}
