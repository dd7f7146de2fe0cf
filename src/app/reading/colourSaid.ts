/** What is said of a chart colour, by its key or by her, made into a shade: a code is one, words mean one roughly. */
import { deltaE2000 } from "../../colour/difference.ts";
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import { shadeByKeyWords } from "../../intake/colourWords.ts";
import type { ReadChart, ReadColour } from "../../intake/readChart.ts";
import { readTypedShade } from "../../intake/typedShade.ts";

/** The name alone tells the shade where nothing better does. */
export function namedColour(colour: ReadColour, name: string): ReadColour {
  const { name: _old, ...rest } = colour;
  const named = name === "" ? rest : { ...rest, name };
  const said = colour.assumed ? shadeByKeyWords(name) : null;
  return said ? { ...named, hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty } : named;
}

/** A shade as it is typed: a code, Lab, or words; null where it is none of these. */
export function typedColour(colour: ReadColour, text: string): ReadColour | null {
  const { assumed: _assumed, uncertainty: _uncertainty, ...rest } = colour;
  const { value } = readTypedShade(text);
  if (value) return { ...rest, lab: value.lab, hex: value.hex ?? hexFromLab(value.lab) };
  const said = shadeByKeyWords(text);
  return said && { ...rest, hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty, assumed: true };
}

/** Where the key has only a name, its words are the best that is known of the shade. */
export function shadedByName({ colours }: Pick<ReadChart, "colours">): ReadChart["colours"] {
  return Object.fromEntries(
    Object.entries(colours).map(([id, colour]) => {
      const said = colour.assumed && colour.uncertainty === undefined ? shadeByKeyWords(colour.name) : null;
      if (!said) return [id, colour];
      return [id, { ...colour, hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty }];
    }),
  );
}

/** ΔE00 below which two signs stand on one ground; prints of one paper differ less. Our choice. */
const ONE_GROUND = 5;
/** L* of the greys that stand in, the commonest sign the lightest: far enough apart to be told on the screen. Our choice. */
const GREYS = { lightest: 84, darkest: 22 };

/** Signs on one ground are told apart by their shapes alone: the ground's colour is not theirs, and greys stand in until she says more. */
export function withoutGroundShades({ rows, colours, symbols = {} }: ReadChart): ReadChart["colours"] {
  const signs = Object.keys(symbols).filter((id) => {
    const own = colours[id];
    return (
      own !== undefined &&
      !own.assumed &&
      Object.entries(colours).some(([other, { lab }]) => other !== id && deltaE2000(lab, own.lab) < ONE_GROUND)
    );
  });
  const text = rows.join("");
  const count = (id: string): number => text.split(id).length;
  const order = signs.sort((one, other) => count(other) - count(one));
  const step = (GREYS.lightest - GREYS.darkest) / Math.max(1, order.length - 1);
  return {
    ...colours,
    ...Object.fromEntries(
      order.map((id, at) => {
        const lab: Lab = [GREYS.lightest - at * step, 0, 0];
        return [id, { ...colours[id], lab, hex: hexFromLab(lab), assumed: true as const }];
      }),
    ),
  };
}
