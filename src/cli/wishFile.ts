/** Reads a wish from a file of its own. */
import { readWish, type StoredWish } from "../document/wish.ts";
import { readText } from "./files.ts";
import { badInput } from "./projectFile.ts";

/** Refuses with 66 or 65. */
export async function wishOf(path: string | undefined): Promise<StoredWish | undefined> {
  if (path === undefined) return undefined;
  const { value, problems } = readWish(await readText(path));
  if (!value) throw badInput(path, problems);
  return value;
}
