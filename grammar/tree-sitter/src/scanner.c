// Numbers and sizes, which are told apart by what comes after them: `10/2` is one fraction, `10/2.5` a division,
// `1..3` two numbers, `34R` a size. A rule of characters alone cannot look so far.
#include "tree_sitter/parser.h"

#include <string.h>

enum Token { INTEGER, DECIMAL, FRACTION, SIZE };

static bool is_digit(int32_t c) { return c >= '0' && c <= '9'; }

static bool is_blank(int32_t c) { return c == ' ' || c == '\t' || c == 0xa0 || c == 0x2009 || c == 0x202f; }

// Characters that are a fraction by themselves, such as ½.
static bool is_vulgar(int32_t c) { return (c >= 0xbc && c <= 0xbe) || (c >= 0x2150 && c <= 0x215e); }

static bool is_word(int32_t c) {
  return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

static void digits(TSLexer *lexer) {
  while (is_digit(lexer->lookahead)) lexer->advance(lexer, false);
}

static bool found(TSLexer *lexer, enum Token token) {
  lexer->result_symbol = token;
  return true;
}

// The letters behind a digit: whether they are a unit, and no part of a size's name.
static bool is_unit(TSLexer *lexer) {
  static const char *const UNITS[] = {"mm", "cm", "m", "in", "ft", "yd", "deg"};
  char letters[4] = {0};
  unsigned length = 0;
  for (; is_word(lexer->lookahead); lexer->advance(lexer, false)) {
    if (length == sizeof letters - 1) return false;
    letters[length++] = (char)lexer->lookahead;
  }
  for (unsigned unit = 0; unit < sizeof UNITS / sizeof *UNITS; unit++) {
    if (strcmp(letters, UNITS[unit]) == 0) return true;
  }
  return false;
}

static bool size(TSLexer *lexer) {
  while (is_word(lexer->lookahead)) lexer->advance(lexer, false);
  lexer->mark_end(lexer);
  return found(lexer, SIZE);
}

// Stands on the slash of `3/4`. Where `3/4.5` turns out to be a division the plain rule of the grammar reads its `3`,
// since an end that was marked cannot be taken back.
static bool fraction(TSLexer *lexer, enum Token otherwise) {
  lexer->advance(lexer, false);
  if (!is_digit(lexer->lookahead)) return found(lexer, otherwise);
  digits(lexer);
  lexer->mark_end(lexer);
  if (lexer->lookahead == '.') {
    lexer->advance(lexer, false);
    if (is_digit(lexer->lookahead)) return false;
  }
  return found(lexer, FRACTION);
}

static bool number(TSLexer *lexer, const bool *valid) {
  digits(lexer);
  lexer->mark_end(lexer);
  if (valid[DECIMAL] && lexer->lookahead == '.') {
    lexer->advance(lexer, false);
    if (!is_digit(lexer->lookahead)) return found(lexer, INTEGER);
    digits(lexer);
    lexer->mark_end(lexer);
    return found(lexer, DECIMAL);
  }
  if (valid[SIZE] && is_word(lexer->lookahead)) return is_unit(lexer) ? found(lexer, INTEGER) : size(lexer);
  if (!valid[FRACTION]) return found(lexer, INTEGER);
  if (lexer->lookahead == '/') return fraction(lexer, INTEGER);
  bool apart = is_blank(lexer->lookahead);
  while (is_blank(lexer->lookahead)) lexer->advance(lexer, false);
  if (is_vulgar(lexer->lookahead)) {
    lexer->advance(lexer, false);
    lexer->mark_end(lexer);
    return found(lexer, FRACTION);
  }
  if (!apart || !is_digit(lexer->lookahead)) return found(lexer, INTEGER);
  digits(lexer);
  return lexer->lookahead == '/' ? fraction(lexer, INTEGER) : found(lexer, INTEGER);
}

bool tree_sitter_fustian_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) {
  while (is_blank(lexer->lookahead)) lexer->advance(lexer, true);
  if (valid[SIZE] && !valid[INTEGER] && (is_digit(lexer->lookahead) || lexer->lookahead == '_')) return size(lexer);
  if (valid[FRACTION] && is_vulgar(lexer->lookahead)) {
    lexer->advance(lexer, false);
    lexer->mark_end(lexer);
    return found(lexer, FRACTION);
  }
  return valid[INTEGER] && is_digit(lexer->lookahead) && number(lexer, valid);
}

// It keeps nothing from one token to the next.
void *tree_sitter_fustian_external_scanner_create(void) { return NULL; }
void tree_sitter_fustian_external_scanner_destroy(void *payload) {}
unsigned tree_sitter_fustian_external_scanner_serialize(void *payload, char *buffer) { return 0; }
void tree_sitter_fustian_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {}
