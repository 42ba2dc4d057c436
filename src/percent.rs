//! Percent escapes (RFC 3986, 2.1).

/// A text with its escapes undone; none where they are cut short, give no UTF-8 or hold a NUL.
pub(crate) fn unescaped(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        match byte {
            b'%' => {
                let (high, low) = (rest.next()?, rest.next()?);
                let digit = |byte: u8| (byte as char).to_digit(16);
                bytes.push((digit(high)? * 16 + digit(low)?) as u8);
            }
            other => bytes.push(other),
        }
    }
    String::from_utf8(bytes).ok().filter(|path| !path.contains('\0'))
}
