//! Words of the trade, and what they mean.

use super::super::{Glossary, Term};

pub(super) const GLOSSARY: Glossary = Glossary {
    allowance: Term {
        word: "Nahtzugabe",
        meaning: "Stoff jenseits der Nahtlinie, damit die Stiche halten. Hier ist sie in jedem Teil schon enthalten.",
    },
    right_sides: Term {
        word: "rechts auf rechts",
        meaning: "Die Seiten, die man beim Tragen sieht, liegen aufeinander; die linken Seiten zeigen beim Nähen nach außen.",
    },
    wrong_side: Term {
        word: "linke Seite",
        meaning: "Die Seite des Stoffes, die man beim Tragen nicht sieht.",
    },
    notch: Term {
        word: "Knips",
        meaning: "Ein kurzer Einschnitt in die Zugabe. Wo zwei Kanten Knipse haben, kommen diese aufeinander zu liegen.",
    },
    ease: Term {
        word: "einhalten",
        meaning: "Eine längere Kante so an eine kürzere nähen, dass sich der Überschuss fein verteilt und keine Falte entsteht.",
    },
    gather: Term {
        word: "einkräuseln",
        meaning: "Zwei Reihen langer Stiche neben der Nahtlinie nähen und zusammenziehen, bis die Kante so lang ist wie die andere.",
    },
    stretch: Term {
        word: "dehnen",
        meaning: "Die kürzere Kante beim Nähen ziehen, bis sie so lang ist wie die andere.",
    },
    gap: Term {
        word: "Wendeöffnung",
        meaning: "Ein Stück einer Naht, das offen bleibt. Hindurch wird das Teil gewendet, danach wird es von Hand geschlossen.",
    },
    french_seam: Term {
        word: "französische Naht",
        meaning: "Eine Naht, die zweimal genäht wird: erst links auf links, dann rechts auf rechts, so dass die offenen Kanten innen liegen.",
    },
    lapped_seam: Term {
        word: "überlappte Naht",
        meaning: "Eine Kante wird eingeschlagen, auf die andere gelegt, beide rechten Seiten oben, und von oben gesteppt.",
    },
    fell: Term {
        word: "Kappnaht",
        meaning: "Die breitere Zugabe einer Naht wird um die schmalere geschlagen und flach festgesteppt, so dass keine offene Kante bleibt.",
    },
    topstitch: Term {
        word: "absteppen",
        meaning: "Von der rechten Seite steppen, wo man die Stiche sieht.",
    },
    understitch: Term {
        word: "untersteppen",
        meaning: "Besatz oder Futter neben der Naht auf die Zugaben steppen, damit es nach innen rollt und nicht hervorschaut.",
    },
    bind: Term {
        word: "einfassen",
        meaning: "Einen Stoffstreifen um eine offene Kante legen und auf beiden Seiten feststeppen.",
    },
    dart: Term {
        word: "Abnäher",
        meaning: "Eine Falte, die spitz zugenäht wird und flachem Stoff eine Form gibt.",
    },
    pleat: Term {
        word: "Falte",
        meaning: "Ein Bruch, der in den Stoff gelegt und am Rand gehalten wird.",
    },
    tuck: Term { word: "Biese", meaning: "Eine Falte, die auf ganzer Länge genäht ist." },
    baste: Term {
        word: "heften",
        meaning: "Etwas mit langen Stichen an seinem Platz halten; sie werden nach dem Nähen wieder herausgezogen.",
    },
    press: Term {
        word: "bügeln",
        meaning: "Das Bügeleisen aufsetzen und wieder abheben, ohne zu schieben.",
    },
    hem: Term {
        word: "säumen",
        meaning: "Eine Kante auf die linke Seite umschlagen und dort feststeppen.",
    },
    turn_up: Term {
        word: "Aufschlag",
        meaning: "Ein Saum, der noch einmal nach außen umgelegt wird, wo man ihn sieht.",
    },
    overlock: Term {
        word: "versäubern",
        meaning: "Eine offene Kante so übernähen, dass sie nicht ausfranst, mit der Overlock oder im Zickzack.",
    },
    casing: Term {
        word: "Tunnel",
        meaning: "Ein Durchzug aus Stoff, in dem Gummiband oder eine Kordel läuft.",
    },
    face_down: Term {
        word: "Oberseite unten",
        meaning: "Die Seite, die man beim Tragen sieht, liegt auf dem Stoff.",
    },
    concealed_zip: Term {
        word: "nahtverdeckter Reißverschluss",
        meaning: "Ein Reißverschluss, dessen Zähne sich hinter die Kanten rollen, so dass man nur eine Naht sieht.",
    },
    separating_zip: Term {
        word: "teilbarer Reißverschluss",
        meaning: "Ein Reißverschluss, der sich unten ganz trennen lässt.",
    },
    buttonhole: Term {
        word: "Knopfloch",
        meaning: "Ein Schlitz, der dicht umnäht und dann aufgeschnitten wird, so lang wie der Knopf breit und dick ist.",
    },
    snap: Term {
        word: "Druckknopf",
        meaning: "Ein Verschluss aus zwei Teilen, die ineinander gedrückt werden.",
    },
    toggle: Term { word: "Knebel", meaning: "Ein kurzer Stab, der durch eine Schlaufe gesteckt wird." },
    thread: Term {
        word: "durchziehen",
        meaning: "Etwas durch einen Tunnel führen, mit einer Durchziehnadel oder Sicherheitsnadel am Ende.",
    },
    tack: Term {
        word: "anheften",
        meaning: "Etwas mit ein paar Handstichen halten, einer auf dem anderen.",
    },
    bar_tack: Term {
        word: "Riegel",
        meaning: "Eine kurze, dichte Reihe Zickzackstiche, die dort hält, wo etwas zieht.",
    },
    fuse: Term {
        word: "aufbügeln",
        meaning: "Einen Stoff mit Kleber auf der Rückseite heiß auf einen anderen bügeln, ohne Dampf, wenn sein Hersteller nichts anderes sagt.",
    },
    slipstitch: Term {
        word: "von Hand schließen",
        meaning: "Von Hand von Bruch zu Bruch nähen, so dass man kaum einen Stich sieht.",
    },
    grain: Term {
        word: "Fadenlauf",
        meaning: "Die Richtung der Fäden, die parallel zur Webkante laufen. Der Pfeil auf einem Teil liegt in dieser Richtung.",
    },
    selvage: Term { word: "Webkante", meaning: "Der feste Rand an beiden Seiten eines Stoffes." },
    nap: Term {
        word: "Strich",
        meaning: "Fasern oder ein Muster, die in eine Richtung zeigen, so dass alle Teile gleich herum liegen müssen.",
    },
    fold: Term {
        word: "im Bruch",
        meaning: "Die Kante des Teils liegt dort, wo der Stoff gefaltet ist; so wird es einmal zugeschnitten und klappt auf die doppelte Breite auf.",
    },
    mirrored: Term {
        word: "gegengleich",
        meaning: "Ein linkes und ein rechtes: den Stoff doppelt legen oder den Schnitt für das zweite umdrehen.",
    },
    stitching_line: Term {
        word: "Nahtlinie",
        meaning: "Die Linie, an der zwei Teile zusammengenäht werden.",
    },
    wearing_ease: Term {
        word: "Bequemlichkeitszugabe",
        meaning: "Um wie viel das fertige Kleidungsstück größer ist als der Körper.",
    },
};
