/** Cells that a spreadsheet would take for a formula: guarded when a table is written, and unguarded when it is read. */

/**
 * The text with an apostrophe before it where a spreadsheet would calculate it. Source: OWASP Application Security Verification
 * Standard 5.0, 1.2.10, and OWASP “CSV Injection” (which adds the line ends): = + - @ tab, carriage return, line feed, null;
 * the full-width forms are ours to add, as some programs read them alike.
 */
export const guarded = (text: string): string => (DANGEROUS.test(text) ? `'${text}` : text);

/** What `guarded` was given; and the text of ="0017", by which spreadsheets keep their zeros. */
export function unguarded(cell: string): string {
  if (/^'+[=+\-@\t\r\n\0＝＋－＠]/.test(cell)) return cell.slice(1);
  const kept = /^="([^"]*)"$/.exec(cell);
  return kept ? kept[1]! : cell;
}

/** A text that begins with apostrophes and such a sign is guarded too, so that what was read is what was written. */
const DANGEROUS = /^'*[=+\-@\t\r\n\0＝＋－＠]/;
