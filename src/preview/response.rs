use std::borrow::Cow;

/// What is asked, as far as it matters here.
#[derive(Clone, Copy, Debug, Default)]
pub struct Request<'a> {
    /// `GET`, `HEAD` …
    pub method: &'a str,
    /// The path and what stands behind its question mark, as they came.
    pub target: &'a str,
    /// The header `Host`.
    pub host: Option<&'a str>,
    /// The header `Origin`.
    pub origin: Option<&'a str>,
    /// The header `Sec-Fetch-Site`: where the page is from that asks.
    pub site: Option<&'a str>,
    /// The header `Sec-Fetch-Mode`: `navigate` where a person follows a link.
    pub mode: Option<&'a str>,
    /// The header `If-None-Match`.
    pub known: Option<&'a str>,
}

/// What is answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Response {
    /// The status (RFC 9110, 15).
    pub status: u16,
    /// All headers but for those of the connection.
    pub headers: Vec<(&'static str, Cow<'static, str>)>,
    /// What follows them; nothing where only the head is asked for.
    pub body: Cow<'static, [u8]>,
    /// How long the body is, or would be.
    pub length: usize,
}

/// What a page of ours may load and do: what is served here and nothing else.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; \
                      frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'";

impl Response {
    /// An answer with what every one of them says: whose it is, what it may load, and that it is not to be kept.
    pub(super) fn new(status: u16, kind: &'static str, body: impl Into<Cow<'static, [u8]>>) -> Self {
        let body = body.into();
        let headers = [
            ("Content-Type", kind),
            ("Content-Security-Policy", POLICY),
            ("X-Content-Type-Options", "nosniff"),
            ("Referrer-Policy", "no-referrer"),
            ("Cross-Origin-Resource-Policy", "same-origin"),
            ("Cross-Origin-Opener-Policy", "same-origin"),
            ("Cache-Control", "no-store"),
        ];
        let headers = headers.map(|(name, value)| (name, Cow::Borrowed(value))).to_vec();
        Response { status, headers, length: body.len(), body }
    }

    /// A few words.
    pub fn words(status: u16, words: &str) -> Self {
        Response::new(status, "text/plain; charset=utf-8", format!("{words}\n").into_bytes())
    }

    /// The same with one header more, in the place of one of that name.
    pub(super) fn with(mut self, name: &'static str, value: impl Into<Cow<'static, str>>) -> Self {
        self.headers.retain(|(own, _)| *own != name);
        self.headers.push((name, value.into()));
        self
    }

    /// The same without its body.
    pub(super) fn head(mut self) -> Self {
        self.body = Cow::Borrowed(&[]);
        self
    }

    /// The value of a header.
    pub fn header(&self, name: &str) -> Option<&str> {
        let found = self.headers.iter().find(|(own, _)| own.eq_ignore_ascii_case(name));
        found.map(|(_, value)| value.as_ref())
    }
}
