/** Her shelf as a file she owns: written as a download, read from what she picks. */
import { readShelf, writeShelf, type Shelf } from "../../document/shelf.ts";
import { shelved } from "../../yarn/shelf.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import { download, fileStem, openFile, type OpenedFile } from "../shell/files.ts";

export const openShelfFile = (file: File): Promise<OpenedFile<Shelf>> =>
  openFile(file, readShelf, { kind: "shelf", unharmed: "Your shelf has stayed as it was." });

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
