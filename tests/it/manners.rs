//! How the language server bears with a client that does not keep to the protocol, or has changed
//! its mind.

use crate::wire::{Client, SMOCK, codes, crew, uri};
use serde_json::{Value, json};

#[test]
fn rubbish_gets_an_answer_and_costs_only_itself() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::new();
    assert_eq!(client.ask("textDocument/hover", json!({})).unwrap_err()["code"], json!(-32002));
    client.ask("initialize", json!({ "capabilities": {} })).unwrap();
    assert_eq!(client.ask("initialize", json!({ "capabilities": {} })).unwrap_err()["code"], json!(-32600));
    // An answer without a number, by JSON-RPC 2.0, section 5.
    let null = Value::Null;
    client.raw(b"Content-Length: 5\r\n\r\n{oops");
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32700));
    client.raw(b"Content-Length: 3\r\n\r\n\xff\xfe\xfd");
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32700));
    client.raw(b"Content-Length: 2\r\n\r\n[]Content-Length: 2\r\n\r\n{}");
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32600));
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32600));
    client.raw(b"ahoy\r\nContent-Length: many\r\n\r\n");
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32700));
    client.raw(&Client::framed(&json!({ "jsonrpc": "2.0", "id": 1.5, "method": "textDocument/hover" })));
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32600));
    client.raw(&Client::framed(&json!({ "jsonrpc": "2.0", "id": "one", "method": 7 })));
    assert_eq!(client.answer(&json!("one")).unwrap_err()["code"], json!(-32600));
    assert_eq!(client.ask("textDocument/iron", json!({})).unwrap_err()["code"], json!(-32601));
    for method in ["hover", "completion", "rename", "codeAction", "references", "semanticTokens/full"] {
        let method = format!("textDocument/{method}");
        for params in [Value::Null, json!([1]), json!({ "textDocument": { "uri": "::::" } })] {
            assert_eq!(client.ask(&method, params).unwrap_err()["code"], json!(-32602), "{method}");
        }
    }
    client.note("textDocument/didChange", json!({ "textDocument": 4 }));
    client.edit(&uri, 9, [[0, 0], [0, 1]], "never opened");
    client.note("$/nonsense", json!([]));
    client.note("textDocument/didClose", json!({ "textDocument": { "uri": "file:///gone.fus" } }));
    assert_eq!(client.ask_at("textDocument/hover", &uri, [0, 0]), Ok(Value::Null));
    client.open(&uri, SMOCK);
    // Positions far outside, and ranges the wrong way round.
    client.edit(&uri, 2, [[900, 900], [0, 0]], "garment \"Deck smock\"\n");
    client.edit(&uri, 3, [[4_000_000_000, 4_000_000_000], [4_000_000_000, 0]], "units cm\n");
    assert_eq!(codes(&client.told_of(&uri, 3)), ["piece/none"]);
    for at in [[0, 0], [0, 4_000_000_000], [4_000_000_000, 7]] {
        for method in ["hover", "completion", "definition", "prepareRename"] {
            assert!(client.ask_at(&format!("textDocument/{method}"), &uri, at).is_ok(), "{method} {at:?}");
        }
    }
    let logged = client.others.iter().filter(|one| one["method"] == json!("window/logMessage"));
    assert_eq!(logged.count(), 2, "{:?}", client.others);
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn shutdown_and_exit_have_their_order() {
    let mut client = Client::ready();
    assert_eq!(client.ask("shutdown", Value::Null), Ok(Value::Null));
    assert_eq!(client.ask("shutdown", Value::Null).unwrap_err()["code"], json!(-32600));
    client.note("exit", Value::Null);
    assert_eq!(client.end(), Some(0));
    let mut hasty = Client::ready();
    hasty.note("exit", Value::Null);
    assert_eq!(hasty.end(), Some(1));
    assert_eq!(Client::ready().end(), Some(1), "gone without a word");
    assert_eq!(Client::new().end(), Some(1));
}

#[test]
fn what_is_not_wanted_any_more_is_not_worked_out() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    client.open(&uri, SMOCK);
    // All in one go: while the first answers are worked out, the last ones are cancelled.
    let mut bytes = Vec::new();
    for id in 0..60 {
        let change = json!({ "textDocument": { "uri": uri, "version": id + 2 }, "contentChanges": [{ "text": SMOCK }] });
        bytes.extend(Client::framed(
            &json!({ "jsonrpc": "2.0", "method": "textDocument/didChange", "params": change }),
        ));
        let params = json!({ "textDocument": { "uri": uri }, "position": { "line": 4, "character": 5 } });
        let id = format!("hover {id}");
        bytes.extend(Client::framed(
            &json!({ "jsonrpc": "2.0", "id": id, "method": "textDocument/hover", "params": params }),
        ));
    }
    let cancel = json!({ "jsonrpc": "2.0", "method": "$/cancelRequest", "params": { "id": "hover 59" } });
    bytes.extend(Client::framed(&cancel));
    client.raw(&bytes);
    for id in 0..59 {
        assert!(client.answer(&json!(format!("hover {id}"))).is_ok());
    }
    assert_eq!(client.answer(&json!("hover 59")).unwrap_err()["code"], json!(-32800));
    // Changes that waited together are told of once, by the last version.
    assert_eq!(codes(&client.told_of(&uri, 61)), [""; 0]);
    assert_eq!(client.leave(), Some(0));
}
