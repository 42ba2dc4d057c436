// Starts the language server that the program `fustian` is, for files of the language.
"use strict";

const { workspace, window } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

async function activate() {
  const command = workspace.getConfiguration("fustian").get("command") || "fustian";
  const server = { command, args: ["editor"] };
  const options = { documentSelector: [{ language: "fustian" }] };
  client = new LanguageClient("fustian", "Fustian", server, options);
  try {
    await client.start();
  } catch (error) {
    window.showErrorMessage(`${command} cannot be started: ${error.message}. The setting fustian.command says which program to start.`);
  }
}

function deactivate() {
  return client && client.stop();
}

module.exports = { activate, deactivate };
