#![no_main]

use std::cell::RefCell;
use std::path::Path;

use clothyard::PageSite;
use clothyard_tests::hammer::Visitor;
use clothyard_tests::program::Folder;

thread_local! {
    static VISITOR: RefCell<Visitor> = RefCell::new({
        let folder = Folder::new("fuzz");
        let site = PageSite::local(Path::new(&folder.at("")), None).expect("a free port");
        std::mem::forget(folder);
        let visitor = Visitor::new(site.address());
        site.serve_aside();
        visitor
    });
}

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let reply = VISITOR.with(|visitor| visitor.borrow_mut().send(bytes));
    let code = reply.map(|reply| reply.code);
    assert!(code.is_none_or(|code| code < 500 || code == 503), "{code:?}");
});
