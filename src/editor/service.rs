use super::document::{Document, uri_in};
use super::workspace::Workspace;
use super::{
    code_actions, completion, document_symbols, folding, formatting, hover, navigation, rename,
    semantic_tokens, workspace_symbols,
};
use indexmap::IndexMap;
use lsp_types as lsp;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use std::sync::Arc;

/// Why a request has no answer: a code of LSP 3.17 or JSON-RPC 2.0, and words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// The code.
    pub code: i32,
    /// The words.
    pub message: String,
}

/// A request of that name is not known here.
pub const METHOD_NOT_FOUND: i32 = -32601;
/// What came with the request is not what it should be.
pub const INVALID_PARAMS: i32 = -32602;
/// What was asked for cannot be done, for a reason that the maker should read.
pub const REQUEST_FAILED: i32 = -32803;

/// What the editor's program can do, as far as answers depend on it.
#[derive(Clone, Copy, Debug, Default)]
struct Abilities {
    related: bool,
    versioned_edits: bool,
    watching: bool,
}

/// The language server without its wire: requests in, answers out.
pub struct Service {
    workspace: Workspace,
    abilities: Abilities,
    /// What was last published of each file.
    published: IndexMap<Arc<str>, (Option<i32>, Vec<lsp::Diagnostic>)>,
}

impl Service {
    /// A service with nothing open.
    pub fn new(workspace: Workspace) -> Self {
        Service { workspace, abilities: Abilities::default(), published: IndexMap::new() }
    }

    /// What lies open.
    pub fn workspace(&self) -> &Workspace {
        &self.workspace
    }

    /// Hears what the other side can do, and tells what this one can.
    pub fn initialise(&mut self, params: &Value) -> Value {
        let able = |path: &str| params.pointer(path).and_then(Value::as_bool).unwrap_or(false);
        self.abilities = Abilities {
            related: able("/capabilities/textDocument/publishDiagnostics/relatedInformation"),
            versioned_edits: able("/capabilities/workspace/workspaceEdit/documentChanges"),
            watching: able("/capabilities/workspace/didChangeWatchedFiles/dynamicRegistration"),
        };
        json!({
            "capabilities": capabilities(),
            "serverInfo": { "name": "fustian", "version": env!("CARGO_PKG_VERSION") },
        })
    }

    /// What this side asks for once all is agreed: to be reported of changes on the disk.
    pub fn wishes(&self) -> Option<(&'static str, Value)> {
        let watch = json!({ "registrations": [{
            "id": "files",
            "method": "workspace/didChangeWatchedFiles",
            "registerOptions": { "watchers": [{ "globPattern": "**/*.fus" }] },
        }]});
        self.abilities.watching.then_some(("client/registerCapability", watch))
    }

    /// Takes a notification; those that are not known, or make no sense, change nothing, and the
    /// reason is given.
    pub fn notice(&mut self, method: &str, params: Value) -> Result<(), Refusal> {
        match method {
            "textDocument/didOpen" => {
                let params: lsp::DidOpenTextDocumentParams = read(params)?;
                let document = params.text_document;
                self.workspace.open(document.uri, document.text, document.version);
            }
            "textDocument/didChange" => {
                let params: lsp::DidChangeTextDocumentParams = read(params)?;
                let (uri, version) = (params.text_document.uri, params.text_document.version);
                if !self.workspace.change(&uri, params.content_changes, version) {
                    let message = format!("{} was changed, but it is not open", uri.as_str());
                    return Err(Refusal { code: INVALID_PARAMS, message });
                }
            }
            "textDocument/didClose" => {
                let params: lsp::DidCloseTextDocumentParams = read(params)?;
                self.workspace.close(&params.text_document.uri);
            }
            "textDocument/didSave" | "workspace/didChangeWatchedFiles" => self.workspace.disk_changed(),
            _ => {}
        }
        Ok(())
    }

    /// Answers a request from the texts as they are now.
    pub fn answer(&mut self, method: &str, params: Value) -> Result<Value, Refusal> {
        match method {
            "textDocument/hover" => {
                let at: lsp::TextDocumentPositionParams = read(params)?;
                let open = self.workspace.up_to_date(&at.text_document.uri);
                answer(open.and_then(|open| hover::hover(&open, at.position)))
            }
            "textDocument/completion" => {
                let at: lsp::TextDocumentPositionParams = read(params)?;
                let open = self.workspace.up_to_date(&at.text_document.uri);
                answer(open.map(|open| completion::completion(&open, at.position)))
            }
            "textDocument/definition" => {
                let at: lsp::TextDocumentPositionParams = read(params)?;
                let uri = &at.text_document.uri;
                answer(navigation::definition_or_base(&mut self.workspace, uri, at.position))
            }
            "textDocument/documentHighlight" => {
                let at: lsp::TextDocumentPositionParams = read(params)?;
                let uri = &at.text_document.uri;
                answer(navigation::highlights(&mut self.workspace, uri, at.position))
            }
            "textDocument/documentLink" => {
                let params: lsp::DocumentLinkParams = read(params)?;
                let open = self.workspace.up_to_date(&params.text_document.uri);
                answer(open.map(|open| navigation::links(&open)))
            }
            "workspace/symbol" => {
                let params: lsp::WorkspaceSymbolParams = read(params)?;
                self.workspace.recompile_stale();
                answer(workspace_symbols::workspace_symbols(&self.workspace, &params.query))
            }
            "textDocument/references" => {
                let params: lsp::ReferenceParams = read(params)?;
                let at = params.text_document_position;
                let declared = params.context.include_declaration;
                answer(navigation::references(
                    &mut self.workspace,
                    &at.text_document.uri,
                    at.position,
                    declared,
                ))
            }
            "textDocument/prepareRename" => {
                let at: lsp::TextDocumentPositionParams = read(params)?;
                let found = rename::prepare(&mut self.workspace, &at.text_document.uri, at.position);
                let found = found.map_err(|message| Refusal { code: REQUEST_FAILED, message })?;
                answer(
                    found.map(|(range, placeholder)| json!({ "range": range, "placeholder": placeholder })),
                )
            }
            "textDocument/rename" => {
                let params: lsp::RenameParams = read(params)?;
                let at = params.text_document_position;
                let edits =
                    rename::rename(&mut self.workspace, &at.text_document.uri, at.position, &params.new_name);
                let edits = edits.map_err(|message| Refusal { code: REQUEST_FAILED, message })?;
                Ok(self.workspace_edit(&edits))
            }
            "textDocument/documentSymbol" => {
                let params: lsp::DocumentSymbolParams = read(params)?;
                let read = self.workspace.read_alone(&params.text_document.uri);
                answer(read.map(|(document, parsed)| document_symbols::document_symbols(document, &parsed)))
            }
            "textDocument/foldingRange" => {
                let params: lsp::FoldingRangeParams = read(params)?;
                answer(self.document(&params.text_document).map(folding::folding))
            }
            "textDocument/semanticTokens/full" => {
                let params: lsp::SemanticTokensParams = read(params)?;
                let uri = &params.text_document.uri;
                let read = self.workspace.marks(uri).unwrap_or_default();
                let open = self.workspace.up_to_date(uri);
                let data = open.map(|open| semantic_tokens::semantic_tokens(&open, &read));
                answer(data.map(|data| lsp::SemanticTokens { result_id: None, data }))
            }
            "textDocument/formatting" => {
                let params: lsp::DocumentFormattingParams = read(params)?;
                let edits = self.document(&params.text_document).map(formatting::formatting).transpose();
                answer(edits.map_err(|message| Refusal { code: REQUEST_FAILED, message })?)
            }
            "textDocument/codeAction" => {
                let params: lsp::CodeActionParams = read(params)?;
                Ok(self.quick_fixes(&params))
            }
            other => {
                let message = format!("{other} is not known here");
                Err(Refusal { code: METHOD_NOT_FOUND, message })
            }
        }
    }

    fn document(&self, named: &lsp::TextDocumentIdentifier) -> Option<&Document> {
        self.workspace.document(&named.uri)
    }

    fn quick_fixes(&mut self, params: &lsp::CodeActionParams) -> Value {
        let wanted = params.context.only.as_ref();
        let quick = |kind: &lsp::CodeActionKind| matches!(kind.as_str(), "" | "quickfix");
        if wanted.is_some_and(|kinds| !kinds.iter().any(quick)) {
            return Value::Array(Vec::new());
        }
        self.workspace.recompile_stale();
        let Some(open) = self.workspace.up_to_date(&params.text_document.uri) else {
            return Value::Array(Vec::new());
        };
        let ways = code_actions::code_actions(&open, params.range);
        let actions = ways.into_iter().map(|way| {
            let edit = self.workspace_edit(&way.edits);
            match way.diagnostic {
                Some(diagnostic) => json!({
                    "title": way.title,
                    "kind": "quickfix",
                    "diagnostics": [diagnostic],
                    "isPreferred": true,
                    "edit": edit,
                }),
                None => json!({ "title": way.title, "kind": "quickfix", "edit": edit }),
            }
        });
        Value::Array(actions.collect())
    }

    fn workspace_edit(&self, edits: &[lsp::TextDocumentEdit]) -> Value {
        if self.abilities.versioned_edits {
            return json!({ "documentChanges": edits });
        }
        let changes = edits.iter().map(|one| (one.text_document.uri.as_str().to_owned(), json!(one.edits)));
        json!({ "changes": changes.collect::<serde_json::Map<String, Value>>() })
    }

    /// The diagnostics to publish, once everything is compiled: only of files of which
    /// others were published before, or whose text has another version now.
    pub fn changed_diagnostics(&mut self) -> Vec<lsp::PublishDiagnosticsParams> {
        if !self.workspace.recompile() {
            return Vec::new();
        }
        let mut now = self.workspace.diagnostics();
        if !self.abilities.related {
            now.values_mut().flatten().for_each(report_related);
        }
        let gone: Vec<Arc<str>> =
            self.published.keys().filter(|path| !now.contains_key(*path)).cloned().collect();
        let gone = gone.into_iter().map(|path| (path, Vec::new()));
        let mut changed = Vec::new();
        for (path, diagnostics) in gone.chain(now.clone()) {
            let version = self.workspace.documents().get(&path).map(|document| document.version);
            let known = self.published.get(&path);
            let same = match known {
                Some((of, what)) => *of == version && *what == diagnostics,
                // Of a file that is not open, nothing need be said as long as nothing is wrong.
                None => version.is_none() && diagnostics.is_empty(),
            };
            let uri = uri_in(self.workspace.documents(), &path);
            self.published.insert(path, (version, diagnostics.clone()));
            if let Some(uri) = uri.filter(|_| !same) {
                changed.push(lsp::PublishDiagnosticsParams { uri, diagnostics, version });
            }
        }
        self.published.retain(|path, _| now.contains_key(path));
        changed
    }
}

/// The other places of a message in its words, for an editor that does not link them.
fn report_related(diagnostic: &mut lsp::Diagnostic) {
    for other in diagnostic.related_information.take().unwrap_or_default() {
        let uri = other.location.uri.as_str();
        let file = super::uri::path_of(uri).unwrap_or_else(|| uri.to_owned());
        let file = file.rsplit('/').next().unwrap_or(&file);
        let line = other.location.range.start.line + 1;
        diagnostic.message.push_str(&format!("\n{file}, line {line}: {}", other.message));
    }
}

fn capabilities() -> Value {
    json!({
        "positionEncoding": "utf-16",
        "textDocumentSync": { "openClose": true, "change": 2, "save": { "includeText": false } },
        "hoverProvider": true,
        "completionProvider": { "triggerCharacters": [".", "\""] },
        "definitionProvider": true,
        "documentHighlightProvider": true,
        "documentLinkProvider": { "resolveProvider": false },
        "workspaceSymbolProvider": true,
        "referencesProvider": true,
        "renameProvider": { "prepareProvider": true },
        "documentSymbolProvider": true,
        "foldingRangeProvider": true,
        "documentFormattingProvider": true,
        "codeActionProvider": { "codeActionKinds": ["quickfix"] },
        "semanticTokensProvider": {
            "legend": { "tokenTypes": semantic_tokens::legend(), "tokenModifiers": [] },
            "full": true,
        },
    })
}

fn read<T: DeserializeOwned>(params: Value) -> Result<T, Refusal> {
    serde_json::from_value(params)
        .map_err(|error| Refusal { code: INVALID_PARAMS, message: format!("this cannot be read: {error}") })
}

/// An answer as JSON; null for none.
fn answer(result: impl serde::Serialize) -> Result<Value, Refusal> {
    serde_json::to_value(result).map_err(|error| Refusal { code: REQUEST_FAILED, message: error.to_string() })
}
