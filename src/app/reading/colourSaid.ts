/** What is said of a chart colour, by its key or by her, made into a shade: a code is one, words mean one roughly. */
import { hexFromLab } from "../../colour/lab.ts";
import { shadeByWords } from "../../intake/colourWords.ts";
import type { ReadChart, ReadColour } from "../../intake/readChart.ts";
import { readTypedShade } from "../../intake/typedShade.ts";

/** The name alone tells the shade where nothing better does. */
export function namedColour(colour: ReadColour, name: string): ReadColour {
  const { name: _old, ...rest } = colour;
  const named = name === "" ? rest : { ...rest, name };
  const said = colour.assumed ? shadeByWords([name]) : null;
  return said ? { ...named, hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty } : named;
}

/** A shade as it is typed: a code, Lab, or words; null where it is none of these. */
export function typedColour(colour: ReadColour, text: string): ReadColour | null {
  const { assumed: _assumed, uncertainty: _uncertainty, ...rest } = colour;
  const { value } = readTypedShade(text);
  if (value) return { ...rest, lab: value.lab, hex: value.hex ?? hexFromLab(value.lab) };
  const said = shadeByWords([text]);
  return said && { ...rest, hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty, assumed: true };
}

/** Where the key has only a name, its words are the best that is known of the shade. */
export function shadedByName({ colours }: Pick<ReadChart, "colours">): ReadChart["colours"] {
  return Object.fromEntries(
    Object.entries(colours).map(([id, colour]) => {
      const said = colour.assumed && colour.uncertainty === undefined ? shadeByWords([colour.name]) : null;
      if (!said) return [id, colour];
      return [id, { ...colour, hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty }];
    }),
  );
}
