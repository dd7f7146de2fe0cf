/** What was measured on photographs, made into what goes onto her shelf: new yarns, or yarns there measured anew. */
import type { PhotographedYarn } from "../../jobs/shade.ts";
import type { Edit } from "../../document/edit.ts";
import type { ShelfEdit } from "../../document/shelfEdit.ts";
import type { Lab } from "../../colour/lab.ts";
import { nearestByShade, type Near } from "../../yarn/stash.ts";
import { onShelf, shelved } from "../../yarn/shelf.ts";
import { fleckLengthMm } from "../../yarn/strandPitch.ts";
import { uncertaintyOfYarn, type Yarn } from "../../yarn/yarn.ts";

/** What she writes once for all, or for one yarn otherwise; as typed. */
export interface YarnDetails {
  readonly maker: string;
  /** Goes before the yarn's own name. */
  readonly quality: string;
  readonly fibre: string;
  readonly metresPer100g: string;
  readonly grams: string;
  /** The grams were put on the scales, rather than read off the band. */
  readonly weighed: boolean;
}

export const NO_DETAILS: YarnDetails = {
  maker: "",
  quality: "",
  fibre: "",
  metresPer100g: "",
  grams: "",
  weighed: false,
};

/** A yarn ready for the shelf. */
export interface ReadyYarn {
  readonly name: string;
  readonly told: PhotographedYarn;
  /** The small picture, a data address. */
  readonly picture: string;
  readonly details: YarnDetails;
  /** The yarn on the shelf whose shade this is to become; null: a yarn of its own. */
  readonly anew: string | null;
}

/** ΔE00 beyond which nobody would take two yarns for one, however uncertain both are; our choice. */
const FARTHEST = 6;

/** The yarns on the shelf that this might be, nearest first: no farther off than both ranges together allow. */
export function mayBe(lab: Lab, uncertainty: number, shelf: readonly Yarn[], most = 5): Near[] {
  return nearestByShade(shelf, lab, most).filter(
    ({ yarn, deltaE00 }) => deltaE00 <= Math.min(FARTHEST, Math.hypot(uncertainty, uncertaintyOfYarn(yarn))),
  );
}

/** The edits of one act: on the shelf, and on the project's copies of yarns that were measured anew. */
export function shelfEdits(
  ready: readonly ReadyYarn[],
  shelf: readonly Yarn[],
  project: readonly Yarn[],
): { readonly shelf: ShelfEdit[]; readonly project: Edit[] } {
  const fresh = ready.filter(({ anew }) => anew === null).map(newYarn);
  const again = ready.filter(({ anew }) => anew !== null);
  const copies = again.flatMap((yarn) =>
    project
      .filter((copy) => onShelf(shelf, copy)?.id === yarn.anew)
      .map((copy): Edit => ({ kind: "changeYarn", yarn: copy.id, fields: measuredFields(yarn, copy) })),
  );
  const known = new Map(shelf.map((yarn) => [yarn.id, yarn]));
  return {
    shelf: [
      ...(fresh.length > 0 ? [{ kind: "addYarns", yarns: shelved(shelf, fresh) } as const] : []),
      ...again.map((yarn): ShelfEdit => {
        const fields = measuredFields(yarn, known.get(yarn.anew!) ?? {});
        return { kind: "changeYarn", yarn: yarn.anew!, fields };
      }),
    ],
    project: copies,
  };
}

type Thickness = Pick<Yarn, "metresPer100g" | "weightClass">;

/** What a photograph tells of a yarn. What it does not see stays: flecks that she knows of may be too fine for it. */
function measuredFields({ told, picture }: ReadyYarn, thickness: Thickness): Pick<Yarn, "shade" | "flecks" | "photo"> {
  const flecks = told.flecks.map(({ lab, share, strands }) => {
    const lengthMm = fleckLengthMm(strands, thickness);
    return { shade: { lab: rounded(lab) }, share: rounding(share, 1000), ...(lengthMm ? { lengthMm } : {}) };
  });
  return {
    shade: { lab: rounded(told.lab), uncertainty: tenths(told.uncertainty), from: "photo" },
    ...(flecks.length > 0 ? { flecks } : {}),
    ...(picture ? { photo: picture } : {}),
  };
}

function newYarn(ready: ReadyYarn, at: number): Yarn {
  const { name, details } = ready;
  const grams = typedNumber(details.grams);
  const metres = typedNumber(details.metresPer100g);
  const lot = { id: "l1", ...(grams ? { grams } : {}), ...(details.weighed ? { weighed: true } : {}) };
  return {
    id: `photo-${at + 1}`,
    name: [details.quality.trim(), name.trim()].filter(Boolean).join(" "),
    ...measuredFields(ready, metres ? { metresPer100g: metres } : {}),
    ...(details.maker.trim() ? { maker: details.maker.trim() } : {}),
    ...(details.fibre.trim() ? { fibre: details.fibre.trim() } : {}),
    ...(metres ? { metresPer100g: metres } : {}),
    ...(grams ? { lots: [lot] } : {}),
  };
}

/** A number above 0 as people type it; null where nothing is typed, NaN where it cannot be one. */
export function typedNumber(text: string): number | null {
  if (text.trim() === "") return null;
  const value = Number(text.trim().replace(",", "."));
  return value > 0 ? value : NaN;
}

const rounding = (value: number, steps: number): number => Math.round(value * steps) / steps;
const rounded = (lab: Lab): Lab => [rounding(lab[0], 100), rounding(lab[1], 100), rounding(lab[2], 100)];
const tenths = (value: number): number => rounding(value, 10);
