/** Reads a wish from a file of its own. */
import type { Problem } from "../base/problem.ts";
import { readWish, WISH_PARTS, type StoredWish } from "../document/wish.ts";
import { readText } from "./files.ts";
import { nearestWord } from "./nearest.ts";
import { badInput } from "./projectFile.ts";

/** Refuses with 66 or 65. A field that is nearly a part of a wish is doubted, for else it would be passed over in silence. */
export async function wishOf(path: string | undefined): Promise<{ wish: StoredWish | undefined; problems: Problem[] }> {
  if (path === undefined) return { wish: undefined, problems: [] };
  const { value, problems } = readWish(await readText(path));
  if (!value) throw badInput(path, problems);
  return { wish: value, problems: Object.keys(value).flatMap(mistyped) };
}

function mistyped(field: string): Problem[] {
  const near = WISH_PARTS.includes(field) ? null : nearestWord(field, WISH_PARTS);
  if (near === null) return [];
  const got = `${JSON.stringify(field)}, which is passed over`;
  return [{ where: "the wish", expected: JSON.stringify(near), got, severity: "doubt" }];
}
