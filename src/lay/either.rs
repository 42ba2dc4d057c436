//! One lay of two ways to make it: whichever takes less cloth.

use super::request::{LayError, Plan, Request};
use super::search::{Search, search, searching};

/// So much of the work goes into both ways before they are compared.
const BOTH_UNTIL: f64 = 0.2;

/// A way that is longer by more than this share is searched no further. Of 144 lays of garments, folded and open, the one that
/// was so far behind after a brief search was the shorter one after a quick search in three, by 2.6 % at most and 0.04 % of
/// all on average.
const BEHIND: f64 = 0.01;

/// Does two works, side by side where there are threads for that.
pub type Join<'j> = &'j dyn Fn(&mut (dyn FnMut() + Send), &mut (dyn FnMut() + Send));

/// Finds plans of two requests of which only the shorter is wanted, such as of one cloth folded and open. Both are searched
/// for a while; of one that is clearly behind then there is no plan. Of two plans each is what [`search`] finds.
///
/// # Errors
/// Of each request what [`search`] says; the other is then searched on its own.
pub fn search_either(one: &Request, other: &Request, join: Join) -> [Result<Option<Plan>, LayError>; 2] {
    let alone = |request| search(request, &mut |_| {}).map(Some);
    match searching(one, |one| searching(other, |other| shorter([one, other], join))) {
        Ok(Ok(plans)) => plans.map(Option::transpose),
        Ok(Err(trouble)) => [alone(one), Err(trouble)],
        Err(trouble) => [Err(trouble), alone(other)],
    }
}

fn shorter([mut one, mut other]: [Search; 2], join: Join) -> [Option<Result<Plan, LayError>>; 2] {
    join(&mut || one.work(BOTH_UNTIL, &mut |_| {}), &mut || other.work(BOTH_UNTIL, &mut |_| {}));
    let (length, other_length) = (one.told().length, other.told().length);
    let mut left = [
        (length <= other_length * (1.0 + BEHIND)).then_some(one),
        (other_length <= length * (1.0 + BEHIND)).then_some(other),
    ];
    let [one, other] = &mut left;
    let work = |search: &mut Option<Search>| {
        if let Some(search) = search {
            search.work(1.0, &mut |_| {});
        }
    };
    join(&mut || work(one), &mut || work(other));
    left.map(|search| search.map(Search::plan))
}
