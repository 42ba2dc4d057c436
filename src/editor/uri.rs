//! File URIs (RFC 8089) and the paths that they mean.

use crate::percent::unescaped;

/// The path in a `file:` URI, its percent escapes undone; none of another URI, of a file on
/// another machine, or where the escapes give no UTF-8.
pub fn path_of(uri: &str) -> Option<String> {
    let rest = strip_scheme(uri)?;
    let path = match rest.strip_prefix("//") {
        Some(rest) => {
            let (host, _) = rest.split_at(rest.find('/')?);
            if !host.is_empty() && !host.eq_ignore_ascii_case("localhost") {
                return None;
            }
            rest.get(host.len()..)?
        }
        None => rest,
    };
    let path = path.split(['?', '#']).next()?;
    if !path.starts_with('/') {
        return None;
    }
    let path = unescaped(path)?;
    // `/C:/crew` is a drive's path.
    match path.as_bytes() {
        [b'/', drive, b':', ..] if cfg!(windows) && drive.is_ascii_alphabetic() => Some(path[1..].to_owned()),
        _ => Some(path),
    }
}

/// The `file:` URI of an absolute path; what is no path is taken to be a URI already.
pub fn uri_of(path: &str) -> String {
    let drive = cfg!(windows) && path.as_bytes().get(1) == Some(&b':');
    if !path.starts_with('/') && !drive {
        return path.to_owned();
    }
    let mut uri = String::from(if drive { "file:///" } else { "file://" });
    for &byte in path.as_bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                uri.push(byte as char)
            }
            b'\\' if drive => uri.push('/'),
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
    }
    uri
}

fn strip_scheme(uri: &str) -> Option<&str> {
    let (scheme, rest) = uri.split_once(':')?;
    scheme.eq_ignore_ascii_case("file").then_some(rest)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escapes_go_both_ways() {
        let path = "/crew/deck é 100%/smock #2.fus";
        let uri = "file:///crew/deck%20%C3%A9%20100%25/smock%20%232.fus";
        assert_eq!(uri_of(path), uri);
        assert_eq!(path_of(uri).as_deref(), Some(path));
        assert_eq!(path_of("FILE://localhost/a.fus").as_deref(), Some("/a.fus"));
    }

    #[test]
    fn what_is_no_file_here_has_no_path() {
        for uri in
            ["untitled:one", "file://ferry/a.fus", "file:///%zz", "file:///%ff", "file:///%00", "", "file:"]
        {
            assert_eq!(path_of(uri), None, "{uri}");
        }
    }
}
