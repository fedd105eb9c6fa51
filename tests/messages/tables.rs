//! Measured tables that cannot be read: the same mistakes in every kind, then
//! those of single kinds.

use std::path::Path;

use clothyard_tests::tables::{SAMPLES, Sample, gone};
use scenario::measured::{
    Kind, Reader, batch, faces, impacts, profiles, shots, trial_hits, trial_key, trial_plan,
    trial_plan_text, trial_spreads, with_row,
};

/// A sample with the last cell of a row changed.
fn last(sample: &Sample, row: usize, change: impl Fn(&str) -> String) -> String {
    let mut rows: Vec<String> = sample.rows.iter().map(|row| (*row).to_owned()).collect();
    let (before, cell) = rows[row].rsplit_once('|').unwrap();
    rows[row] = format!("{before}|{}", change(cell));
    rows.join("\n") + "\n"
}

/// One table with a mistake for every kind.
fn all(write: impl Fn(&Sample) -> String) -> String {
    let said = SAMPLES.iter().map(|sample| {
        let text = write(sample);
        let read = (sample.read)(text.as_bytes());
        read.expect_err(&format!("{}:\n{text}", sample.name)).render(false)
    });
    said.collect::<Vec<_>>().join("\n\n")
}

shows! {
    regress_message_table_mistyped_column: all(|s| {
        last(s, 0, |head| head.replacen(&head[..2], &format!("{}x", &head[..2]), 1)).replace('|', ",")
    });
    regress_message_table_missing_column: all(|s| {
        s.rows.iter().map(|row| row.split_once('|').unwrap().1.to_owned() + "\n").collect::<String>()
            .replace('|', ",")
    });
    regress_message_table_column_twice: all(|s| {
        let twice = |row: &str| format!("{row};{}", row.rsplit('|').next().unwrap());
        s.rows.iter().map(|row| twice(row) + "\n").collect::<String>().replace('|', ";")
    });
    regress_message_table_wrong_unit: all(|s| {
        last(s, 0, |head| head.replace("in]", "inchs]").replace("mm]", "gr]")).replace('|', "\t")
    });
    regress_message_table_no_unit: all(|s| {
        last(s, 0, |head| head.split(' ').next().unwrap().replace("spine", "length")).replace('|', ";")
    });
    regress_message_table_no_number: all(|s| last(s, 2, |_| "six".to_owned()).replace('|', ","));
    regress_message_table_two_decimal_marks: all(|s| {
        last(s, 2, |_| "\"1.234,5\"".to_owned()).replace('|', ",")
    });
    regress_message_table_unit_of_another_thing: all(|s| {
        last(s, 2, |_| "3 lbs".to_owned()).replace('|', ",")
    });
    regress_message_table_out_of_range: all(|s| last(s, 2, |_| "99 999".replace(' ', "")).replace('|', ","));
    regress_message_table_decimal_commas_between_commas: all(|s| {
        last(s, 1, |cell| cell.replace('.', ",")).replace('|', ",")
    });
    // Its first cell is blank and its last ones are not there.
    regress_message_table_short_row: all(|s| {
        let short = s.rows[2].split('|').nth(1).unwrap();
        format!("{}\n{}\n,{short}\n", s.rows[0], s.rows[1]).replace('|', ",")
    });
    regress_message_table_open_quote: all(|s| last(s, 1, |cell| format!("\"{cell}")).replace('|', ","));
    regress_message_table_heads_alone: all(|s| s.rows[0].replace('|', ","));
    regress_message_table_empty: all(|_| "\u{feff}# nothing yet\n".to_owned());
}

/// A spreadsheet's Unicode text is not UTF-8.
#[test]
fn regress_message_table_not_utf8() {
    let said = SAMPLES.iter().map(|sample| {
        let mut text = sample.file(",", str::to_owned).into_bytes();
        text.extend(b"\xffa\0");
        (sample.read)(&text).unwrap_err().render(false)
    });
    insta::assert_snapshot!(said.collect::<Vec<_>>().join("\n\n"));
}

fn said<T>(read: Reader<T>, text: &str) -> String {
    let read = read(Path::new("table.csv"), Ok(text.into()));
    read.map_or_else(|report| report.render(false), |_| "read".to_owned())
}

/// Every mistake of one table at once.
#[test]
fn regress_message_table_every_mistake_at_once() {
    insta::assert_snapshot!(said(
        batch,
        "arrow,mass [gr],mass [g],spine [lb],length,color,blance [in]\n\
         1,425,1,0.34,28,x,\n\
         # a comment\n\
         1,4.2.5,,0.34,28.5 in,,,extra\n\
         ,900000,,,30 furlong,,\n"
    ));
}

/// A clock position without a unit may be hours or degrees.
#[test]
fn regress_message_table_clock_without_a_unit() {
    insta::assert_snapshot!(said(batch, "arrow,stiff side\n1,6\n2,noon\n"));
}

#[test]
fn regress_message_table_of_faces() {
    insta::assert_snapshot!(said(
        faces,
        "arrow,where,gauge,reading [mm],count,light\n\
         1,frnt,leaf,0.05,,\n\
         1,rear,ruler,,,\n\
         1,rear,light,,,mabye\n\
         1,point,wobble,,,\n\
         1,nock,strokes,,20000,\n\
         1,nock,strokes,,2.5,\n"
    ));
}

#[test]
fn regress_message_table_of_run_out() {
    let heads = "shaft,station [in],clock [deg],reading [in],run-out [in],high [deg],stock [in]\n";
    let rows = "1,2,0,0.01,,,32\n1,4,0,0.01,0.002,,32\n1,6,0,,,,\n1,8,,0.01,,,32\n\
                1,10,0,0.01,,,31\n1,12,,,0.002,90,\n";
    let neither = said(profiles, "shaft,station [in]\n1,2\n");
    insta::assert_snapshot!(said(profiles, &format!("{heads}{rows}")) + "\n\n" + &neither);
}

#[test]
fn regress_message_table_of_shots() {
    let files = [
        "distance [yd],pin [yd]\n20,30\n",
        "distance [yd],gap [mm]\n20,30\n30,40\n",
        "# made up\ndistance [yd],pin [yd],speed [m/s],mark [mm],gap [mm],gap error [mm],up [in]\n\
         20,,85,12,,,\n\n30,,,,,,\n40,,,1/2,,,\n50,,900,,,,\n60,,,,9.5,,\n,,,12,,,\n0,,,12,,,\n\
         30,20,,12,,,\n30,,,12,,0.1,\n30,,,12,,,,,\n# the end\n30,20,,,,,-4.5\n",
    ];
    insta::assert_snapshot!(files.map(|text| said(shots, text)).join("\n\n========\n\n"));
}

#[test]
fn regress_message_table_of_impacts() {
    let gone = impacts(Path::new("gone.csv"), gone()).unwrap_err().render(false);
    let few = said(impacts, "left [in],up [in]\n1,2\n");
    let twice = said(impacts, "left [in],right [in],up [in]\n1,2,3\n1,2,3\n");
    let wide = said(impacts, &("left [in],up [in]".to_owned() + &",".repeat(300)));
    insta::assert_snapshot!([gone, few, twice, wide].join("\n\n"));
}

/// Twenty rows with the same slips: one message for each kind of slip and column.
#[test]
fn regress_message_table_typed_in_haste() {
    let twenty = |row: &str| (1..=20).fold(String::new(), |all, at| format!("{all}{at},{row}\n"));
    let rows = twenty("n/a,28 1/2 inchs,2,3 oclok,340 lb");
    let heads = "arrow,mass [gr],length [in],run-out [thou],run-out high,spine [oz]\n";
    let wide = format!("shaft,stock,clock,1 in,8 in\n{}", twenty("32 in,0 deg,20,21"));
    insta::assert_snapshot!(
        said(batch, &format!("{heads}{rows}")) + "\n\n" + &said(profiles, &wide)
    );
}

/// A row again, a correction of nothing, and a job told twice.
#[test]
fn regress_message_table_of_corrections() {
    let arrows = "arrow,stage,mass [gr],correction\n1,raw,300,\n1,raw,301,\n1,cut,,void\n";
    let job = "customer,arrows,correction\nA,0,\nB,12,\n";
    let none = "customer,arrows\nA,\n";
    insta::assert_snapshot!(
        [
            said(batch, arrows),
            said(scenario::measured::job, job),
            said(scenario::measured::job, none)
        ]
        .join("\n\n")
    );
}

/// Mistakes of a row to add, with those of the file.
#[test]
fn regress_message_table_new_row() {
    let values = ["mass=425", "weather=3 gr", "spine=0.3.4 in", "Weight=27 g", "length=9 in"];
    let pair = |text: &&str| text.split_once('=').map(|(a, b)| (a.to_owned(), b.to_owned()));
    let values: Vec<_> = values.iter().filter_map(pair).collect();
    let add = |old: Option<&str>| {
        let old = old.map(str::as_bytes);
        let new = with_row(Kind::Batch, Path::new("b.csv"), old, &values, units::Style::Metric);
        new.unwrap_err().render(false)
    };
    insta::assert_snapshot!(add(None) + "\n\n========\n\n" + &add(Some("arrow;mass [gr]\n1;x\n")));
}

/// What may be wrong with the table of a trial, mistake by mistake.
#[test]
fn regress_message_tables_of_a_trial() {
    let plan_text = "first,second,distance,asks,size,by,arrows,ends,looks,rule,confidence,power,seed\n\
        old,new,30 yd,width,1.5,places,1,4,2,pocock,95 %,80 %,1\n";
    let read = |text: &str| trial_plan(Path::new("plan.csv"), Ok(text.into()));
    let plan = read(plan_text).unwrap().found.pop().unwrap();
    assert_eq!(read(&trial_plan_text(&plan)).unwrap().found, std::slice::from_ref(&plan));
    let mut said = Vec::new();
    for (from, to) in
        [(",4,2,", ",5,2,"), (",4,2,", ",4,0,"), ("pocock", "pocok"), ("80 %,1", "80 %,1\na,b")]
    {
        said.push(read(&plan_text.replace(from, to)).unwrap_err().render(false));
    }
    let key = |text: &str| trial_key(Path::new("key.csv"), Ok(text.into()), &plan.ask);
    assert_eq!(key("arrow,build\n2,old\n1,new\n").unwrap().found, [1, 0]);
    for text in
        ["arrow,build\n1,old\n1,new\n", "arrow,build\n1,old\n3,nwe\n", "arrow,build\n1,old\n"]
    {
        said.push(key(text).unwrap_err().render(false));
    }
    let head = "end,arrow,left [in],up [in]\n";
    let hits = |text: &str| {
        let text = format!("{head}{text}");
        trial_hits(Path::new("shots.csv"), Ok(text.into()), &plan, &[1, 0])
    };
    assert_eq!(hits("1,1,0,0\n1,2,1,1\n2,1,,\n2,2,,\n").unwrap().found.len(), 1);
    for text in [
        "1,1,0,0\n1,2,,\n",
        "1,1,0,0\n1,2,1,\n",
        "1,1,0,0\n1,1,1,1\n1,2,1,1\n",
        "2,1,0,0\n2,2,1,1\n",
        "5,1,0,0\n1,3,1,1\n",
        "1,1,0,0\n1,2,1 lb,1\n",
    ] {
        said.push(hits(text).unwrap_err().render(false));
    }
    let spreads = |text: &str| {
        let text = format!("end,build,spread [in]\n{text}");
        trial_spreads(Path::new("spreads.csv"), Ok(text.into()), &plan)
    };
    assert_eq!(spreads("1,old,3\n1,new,4\n2,old,\n").unwrap().found.len(), 1);
    for text in ["1,old,3\n1,newer,4\n", "1,old,3\n1,old,4\n", "1,old,3\n1,new,\n"] {
        said.push(spreads(text).unwrap_err().render(false));
    }
    insta::assert_snapshot!(said.join("\n\n"));
}

/// A mass with a slipped decimal point is questioned; one of another stage is not.
#[test]
fn regress_message_table_value_far_off() {
    let text = "arrow,stage,mass [gr]\n1,built,430\n2,built,428\n3,built,4300\n4,built,433\n\
                5,raw,250\n6,built,431\n";
    let read = |text: &str| batch(Path::new("dozen.csv"), Ok(text.into()));
    assert!(read(&text.replace("4300", "430.0")).is_ok());
    insta::assert_snapshot!(read(text).unwrap_err().render(false));
}
