/** The disk: files are read whole, written beside and moved into place, and never over what they were made from. */
import { randomUUID } from "node:crypto";
import { open, readFile, realpath, rename, stat, unlink } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { EXIT, Refusal } from "./io.ts";

/** Refuses with 66. */
export async function readBytes(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    throw new Refusal(EXIT.cannotRead, `Cannot read ${path}: ${reasonOf(error)}.`);
  }
}

/** UTF-8, or UTF-16 where the file says so. Refuses with 66, and with 65 what is neither: names would be lost in it. */
export async function readText(path: string): Promise<string> {
  const bytes = await readBytes(path);
  try {
    return new TextDecoder(encodingOf(bytes), { fatal: true }).decode(bytes);
  } catch {
    throw new Refusal(EXIT.badInput, `${path} cannot be used: expected text in UTF-8, found bytes that are none.`);
  }
}

/** Spreadsheets save "Unicode text" as UTF-16 with a byte order mark. */
function encodingOf([first, second]: Uint8Array): "utf-8" | "utf-16le" | "utf-16be" {
  if (first === 0xff && second === 0xfe) return "utf-16le";
  return first === 0xfe && second === 0xff ? "utf-16be" : "utf-8";
}

export interface WriteOptions {
  /** Replaces a file that differs. */
  readonly force: boolean;
  /** Files that must stay as they are, whatever is forced. */
  readonly inputs: readonly string[];
}

/** Refuses with 73, so that long work is not done for nothing; whether a file differs is known only when it is written. */
export async function checkWritable(path: string, { inputs }: WriteOptions): Promise<void> {
  const folder = await stat(dirname(path)).catch(() => null);
  if (!folder?.isDirectory())
    throw new Refusal(EXIT.cannotWrite, `Cannot write ${path}: there is no folder ${dirname(path)}.`);
  const found = await stat(path).catch(() => null);
  if (!found) return;
  if (!found.isFile()) throw new Refusal(EXIT.cannotWrite, `Cannot write ${path}: what is there is no file.`);
  for (const input of inputs) {
    const same = await stat(input).catch(() => null);
    if (same && same.dev === found.dev && same.ino === found.ino)
      throw new Refusal(EXIT.cannotWrite, `Cannot write ${path}: it is what is read. Choose another name.`);
  }
}

/** Whole or not at all: a reader never sees half a file. Refuses with 73. */
export async function writeWhole(path: string, data: string | Uint8Array, options: WriteOptions): Promise<void> {
  await checkWritable(path, options);
  const bytes = typeof data === "string" ? Buffer.from(data, "utf8") : data;
  const before = await readFile(path).catch(() => null);
  if (before && Buffer.compare(before, bytes) === 0) return;
  if (before && !options.force)
    throw new Refusal(EXIT.cannotWrite, `${path} is there already and differs. Add --force to replace it.`);
  // A link stays a link: what it points to is replaced.
  const target = before ? await realpath(path) : path;
  const beside = join(dirname(target), `.${basename(target)}.${randomUUID()}.part`);
  try {
    const file = await open(beside, "wx", before ? (await stat(target)).mode : 0o666);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, target);
  } catch (error) {
    await unlink(beside).catch(() => undefined);
    throw new Refusal(EXIT.cannotWrite, `Cannot write ${path}: ${reasonOf(error)}.`);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "it is not there",
  EACCES: "it may not be used by this account",
  EPERM: "it may not be used by this account",
  EISDIR: "it is a folder",
  ENOTDIR: "part of the path is no folder",
  ENOSPC: "the disk is full",
  EROFS: "the disk is read only",
  ENAMETOOLONG: "the name is too long",
  ELOOP: "the link leads round in a ring",
  ERR_INVALID_ARG_VALUE: "a file's name cannot hold that",
};

function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? "";
  return REASONS[code] ?? (code || String(error));
}
