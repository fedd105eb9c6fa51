#![no_main]

use std::cell::RefCell;
use std::path::Path;

use clothyard::PageSite;
use clothyard_tests::hammer::Visitor;
use clothyard_tests::program::Folder;

thread_local! {
    // The page's folder lasts as long as who visits it.
    static VISITOR: RefCell<(Visitor, Folder)> = RefCell::new({
        let folder = Folder::new("fuzz");
        let site = PageSite::local(Path::new(&folder.at("")), None).expect("a free port");
        let visitor = Visitor::new(site.address());
        site.serve_aside();
        (visitor, folder)
    });
}

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let reply = VISITOR.with(|visitor| visitor.borrow_mut().0.send(bytes));
    let code = reply.map(|reply| reply.code);
    assert!(code.is_none_or(|code| code < 500 || code == 503), "{code:?}");
});
