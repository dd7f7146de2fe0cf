/** Her shelf as a file she owns: written as a download, read from what she picks. */
import { problemSentence } from "../../base/problem.ts";
import { readShelf, writeShelf, type Shelf } from "../../document/shelf.ts";
import { shelved } from "../../yarn/shelf.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import type { Message } from "../shell/bench.ts";
import { download, fileStem } from "../shell/files.ts";

/** A file that holds more text is no shelf of ours: 64 MB, our choice, as for projects. */
const LONGEST_FILE = 64_000_000;
/** At most so many sentences at once; the rest are counted. */
const MOST_SENTENCES = 8;

export interface OpenedShelf {
  readonly shelf: Shelf | null;
  readonly message: Message | null;
}

export async function openShelfFile(file: File): Promise<OpenedShelf> {
  const refused = (sentences: readonly string[]): OpenedShelf => ({
    shelf: null,
    message: {
      title: `${file.name} was not opened`,
      sentences: [...sentences, "Your shelf has stayed as it was."],
    },
  });
  if (file.size > LONGEST_FILE) return refused(["The file is larger than any shelf: more than 64 MB."]);
  let text: string;
  try {
    text = await file.text();
  } catch {
    return refused(["The browser could not read the file; it may have been moved or changed meanwhile."]);
  }
  const { value, problems } = readShelf(text);
  const sentences = problems.slice(0, MOST_SENTENCES).map(problemSentence);
  if (problems.length > MOST_SENTENCES) sentences.push(`And ${problems.length - MOST_SENTENCES} more.`);
  if (!value) return refused(sentences);
  return {
    shelf: value,
    message: sentences.length > 0 ? { title: `${file.name} is open, with remarks`, sentences } : null,
  };
}

/** @returns the file's name */
export function saveShelfFile(shelf: Shelf, name: string): string {
  const file = `${fileStem(name)}.twostrand-shelf.json`;
  download(file, new Blob([writeShelf(shelf)], { type: "application/json" }));
  return file;
}

/** The yarns of another shelf that are not on this one in every word already, as they will stand here. */
export function newcomers(shelf: Shelf, other: Shelf): Yarn[] {
  const known = new Set(shelf.yarns.map(wordsOf));
  return shelved(
    shelf.yarns,
    other.yarns.filter((yarn) => !known.has(wordsOf(yarn))),
  );
}

/** All of a yarn but its id, which is only a shelf's own way of counting. */
const wordsOf = ({ id: _id, ...yarn }: Yarn): string =>
  JSON.stringify(Object.entries(yarn).toSorted(([one], [other]) => (one < other ? -1 : 1)));
