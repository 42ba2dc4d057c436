//! `notch/close`, and `notch/off-edge` of notches that divide a seam evenly.

use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, NotchSpacing, SeamNotches};
use crate::report::{Diagnostic, Finding, Title, amount, at_most, catalogue};
use crate::sewing::{LEAST_APART, SewnSeam, amount_of, parts_between};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::NOTCH_CLOSE, &catalogue::NOTCH_OFF_EDGE], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let known = size.sewn.seams.iter().filter(|sewn| sewn.known && sewn.unpaired.is_none());
    for sewn in known {
        for notches in &garment.seam(sewn.seam).divided {
            findings.extend(finding(garment, size, sewn, notches));
        }
    }
}

fn finding(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam, notches: &SeamNotches) -> Option<Finding> {
    let (sized, unit) = (&size.drawn, garment.unit);
    let length = sewn.second.plies.first()?.length;
    let name = &garment.seam(sewn.seam).name;
    let apart = match &notches.apart {
        NotchSpacing::Parts(parts) => length / f64::from(*parts),
        NotchSpacing::AtMost(most) => amount_of(garment, sized, most).filter(|most| *most >= 0.0)?,
    };
    let long = amount(length, unit);
    let one_seam = Title::new(format!("the {name} seam is {long} long")).in_sizes();
    let (kind, title, help) = match parts_between(garment, sized, notches, length) {
        Some(1) => (
            &catalogue::NOTCH_OFF_EDGE,
            one_seam.then(format!(", and has no notch every {}", amount(apart, unit))),
            format!("notch it every {} or less, or leave the line out", at_most(length / 2.0, unit)),
        ),
        Some(_) => return None,
        None => (
            &catalogue::NOTCH_CLOSE,
            one_seam.then(format!(
                ": its notches would be {} apart, and less than {} is not told apart",
                amount(apart, unit),
                amount(LEAST_APART, unit)
            )),
            match length >= 2.0 * LEAST_APART {
                true => format!("notch it every {} or more", amount(LEAST_APART, unit)),
                false => "leave the line out: the ends of so short a seam are enough".to_owned(),
            },
        ),
    };
    let mistake = Diagnostic::new(kind, notches.span, title).help(help);
    Some(Finding::new(sized.size, length, mistake).about(&**name).figure("length", long))
}
