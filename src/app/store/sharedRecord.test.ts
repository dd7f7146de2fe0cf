/** A record as a shared document: any record reads back as it was written, in any session and in its own order. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { readShared, writeShared } from "./sharedRecord.ts";

const rootOf = (document: Y.Doc) => document.getMap("record");
const readDocument = (document: Y.Doc) => readShared(rootOf(document));
const writeDocument = (document: Y.Doc, record: object, origin: string) =>
  document.transact(() => writeShared(rootOf(document), record), origin);

/** Any JSON record at all: the mapping knows nothing of knitting, which is why unknown fields survive. */
const { record } = fc.letrec((tie) => ({
  leaf: fc.oneof(
    fc.string(),
    fc.integer(),
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.boolean(),
    fc.constant(null),
  ),
  value: fc.oneof({ depthSize: "small" }, tie("leaf"), tie("record"), tie("list"), tie("entries")),
  list: fc.array(tie("value"), { maxLength: 5 }),
  entries: fc.array(
    fc.tuple(fc.constantFrom("a", "b", "c", "d"), tie("record")).map(([id, rest]) => ({ ...(rest as object), id })),
    { maxLength: 5 },
  ),
  record: fc.dictionary(
    fc.constantFrom("id", "yarns", "rows", "shade", "name", "x-later", "", "__proto__", "\u0000order"),
    tie("value"),
    { minKeys: 1, maxKeys: 4, noNullPrototype: true },
  ),
}));

const asRecord = (value: unknown) => value as object;
/** Fields in their order count too: a file under version control should not be shuffled. */
const text = (value: unknown) => JSON.stringify(value);

describe("a record as a shared document", () => {
  it("reads back what was written", () => {
    fc.assert(
      fc.property(record, (value) => {
        const document = new Y.Doc();
        writeDocument(document, asRecord(value), "edit");
        expect(text(readDocument(document))).toBe(text(value));
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("reads back the last of any sequence of records, written as differences", () => {
    fc.assert(
      fc.property(fc.array(record, { minLength: 1, maxLength: 6 }), (values) => {
        const document = new Y.Doc();
        for (const value of values) {
          writeDocument(document, asRecord(value), "edit");
          expect(text(readDocument(document))).toBe(text(value));
        }
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("reads the same in another session, whichever session wrote which part", () => {
    fc.assert(
      fc.property(fc.array(record, { minLength: 1, maxLength: 5 }), (values) => {
        let document = new Y.Doc();
        values.forEach((value, session) => {
          const next = new Y.Doc();
          next.clientID = ((session * 7919) % 13) + 1 + session * 100;
          Y.applyUpdate(next, Y.encodeStateAsUpdate(document));
          document = next;
          writeDocument(document, asRecord(value), "edit");
        });
        const reopened = new Y.Doc();
        Y.applyUpdate(reopened, Y.encodeStateAsUpdate(document));
        expect(text(readDocument(reopened))).toBe(text(values.at(-1)));
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("touches only what differs, so that two tabs can each change their own row", () => {
    const start = {
      name: "vest",
      rows: ["AABB", "BBAA", "ABAB"],
      colours: [
        { id: "A", name: "cream" },
        { id: "B", name: "bark" },
      ],
    };
    const one = new Y.Doc();
    writeDocument(one, asRecord(start), "edit");
    const two = new Y.Doc();
    Y.applyUpdate(two, Y.encodeStateAsUpdate(one));
    writeDocument(one, asRecord({ ...start, rows: ["BBBB", "BBAA", "ABAB"] }), "edit");
    writeDocument(
      two,
      asRecord({
        ...start,
        colours: [
          { id: "A", name: "milk" },
          { id: "B", name: "bark" },
        ],
        rows: ["AABB", "BBAA", "AAAA"],
      }),
      "edit",
    );
    Y.applyUpdate(one, Y.encodeStateAsUpdate(two));
    Y.applyUpdate(two, Y.encodeStateAsUpdate(one));
    const merged = {
      name: "vest",
      rows: ["BBBB", "BBAA", "AAAA"],
      colours: [
        { id: "A", name: "milk" },
        { id: "B", name: "bark" },
      ],
    };
    expect(readDocument(one)).toEqual(merged);
    expect(readDocument(two)).toEqual(merged);
  });
});
