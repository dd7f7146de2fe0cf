/** Her shelf as the page needs it: what is worked out of every yarn once, so that search and pictures are quick. */
import { hexFromLab, lchFromLab, type Lab } from "../../colour/lab.ts";
import type { ValueClass } from "../../colour/value.ts";
import type { Project } from "../../document/project.ts";
import type { Promised, Shelf } from "../../document/shelf.ts";
import { gramsOwned, gramsPromised, metresOwned } from "../../yarn/lots.ts";
import { onShelf } from "../../yarn/shelf.ts";
import { valueClassesOf } from "../../yarn/stash.ts";
import { labOfYarn, type Yarn } from "../../yarn/yarn.ts";

export interface StashLine {
  readonly id: string;
  readonly yarn: Yarn;
  readonly lab: Lab;
  readonly hex: string;
  /** 0 to 100. */
  readonly L: number;
  readonly chroma: number;
  /** 0 to 360. */
  readonly hue: number;
  /** More than one where its range leaves it between them; lightest first. */
  readonly classes: readonly ValueClass[];
  /** null where nobody has said. */
  readonly grams: number | null;
  readonly metres: number | null;
  /** Grams promised to projects, this one among them. */
  readonly promised: number;
  readonly isPromised: boolean;
  /** Grams that no project was promised, below 0 where more was promised than there is; null where grams are not known. */
  readonly free: number | null;
  /** Its copy on the bench. */
  readonly laidOut: Yarn | null;
}

export function stashLines(shelf: Shelf, project: Project | null): StashLine[] {
  const copies = new Map<string, Yarn>();
  for (const yarn of project?.yarns ?? []) {
    const original = onShelf(shelf.yarns, yarn);
    if (original && !copies.has(original.id)) copies.set(original.id, yarn);
  }
  const promises = new Map<string, Promised[]>();
  for (const promise of shelf.promised ?? []) {
    const own = promises.get(promise.yarn);
    if (own) own.push(promise);
    else promises.set(promise.yarn, [promise]);
  }
  return shelf.yarns.map((yarn) => {
    const lab = labOfYarn(yarn);
    const [L, chroma, hue] = lchFromLab(lab);
    const grams = gramsOwned(yarn);
    const own = promises.get(yarn.id) ?? [];
    const promised = gramsPromised(own, yarn.id);
    return {
      id: yarn.id,
      yarn,
      lab,
      hex: hexFromLab(lab),
      L,
      chroma,
      hue,
      classes: valueClassesOf(yarn),
      grams,
      metres: metresOwned(yarn),
      promised,
      isPromised: own.length > 0,
      free: grams === null ? null : grams - promised,
      laidOut: copies.get(yarn.id) ?? null,
    };
  });
}

export interface Use {
  readonly colourway: string;
  /** Chart colours, each once. */
  readonly colours: readonly string[];
}

/** Where a project's yarn is knitted or sewn: its colourways by name. */
export function usesOf(project: Project, yarn: string): Use[] {
  return project.colourways.flatMap(({ id, name, yarns, changes, overStitched }) => {
    const colours = new Set([
      ...Object.entries(yarns).flatMap(([colour, used]) => (used === yarn ? [colour] : [])),
      ...(changes ?? []).flatMap((change) => (change.yarn === yarn ? [change.colour] : [])),
    ]);
    const sewn = (overStitched ?? []).some((one) => one.yarn === yarn);
    return colours.size > 0 || sewn ? [{ colourway: name ?? id, colours: [...colours].sort() }] : [];
  });
}
