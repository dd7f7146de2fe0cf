/** What is said of a chart colour, by its key or by her, made into a shade: a code is one, words mean one roughly. */
import { hexFromLab } from "../../colour/lab.ts";
import { shadeByWords } from "../../intake/colourWords.ts";
import type { ReadChart, ReadColour } from "../../intake/readChart.ts";
import { readTypedShade } from "../../intake/typedShade.ts";

/** What a colour's name means; words that patterns use for one are looked for where the plain ones say nothing. */
function shadeSaid(name: string | undefined): ReturnType<typeof shadeByWords> {
  const words = name?.toLowerCase().match(/\p{L}+/gu) ?? [];
  return shadeByWords([name]) ?? shadeByWords([words.flatMap((word) => PATTERN_WORDS[word] ?? []).join(" ")]);
}

/** From memory: what is called so is near enough for a beginning, and is told as an estimate. */
const PATTERN_WORDS: Readonly<Record<string, string>> = {
  moss: "dark yellowish green",
  fern: "moderate yellowish green",
  lichen: "pale green",
  gorse: "vivid yellow",
  straw: "pale yellow",
  oatmeal: "yellowish grey",
  gold: "deep yellow",
  peat: "dark brown",
  chocolate: "deep brown",
  brick: "moderate reddish brown",
  terracotta: "moderate reddish orange",
  berry: "deep purplish red",
  plum: "dark purple",
  heather: "pale purple",
  heath: "pale purple",
  slate: "dark bluish grey",
  granite: "medium grey",
  ash: "light grey",
  sky: "light blue",
  ice: "very pale blue",
  fjord: "deep blue",
  forest: "deep green",
  snow: "white",
  hoar: "bluish white",
  frost: "bluish white",
  coal: "black",
  ink: "blackish blue",
};

/** The name alone tells the shade where nothing better does. */
export function namedColour(colour: ReadColour, name: string): ReadColour {
  const { name: _old, ...rest } = colour;
  const named = name === "" ? rest : { ...rest, name };
  const said = colour.assumed ? shadeSaid(name) : null;
  return said ? { ...named, hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty } : named;
}

/** A shade as it is typed: a code, Lab, or words; null where it is none of these. */
export function typedColour(colour: ReadColour, text: string): ReadColour | null {
  const { assumed: _assumed, uncertainty: _uncertainty, ...rest } = colour;
  const { value } = readTypedShade(text);
  if (value) return { ...rest, lab: value.lab, hex: value.hex ?? hexFromLab(value.lab) };
  const said = shadeSaid(text);
  return said && { ...rest, hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty, assumed: true };
}

/** Where the key has only a name, its words are the best that is known of the shade. */
export function shadedByName({ colours }: Pick<ReadChart, "colours">): ReadChart["colours"] {
  return Object.fromEntries(
    Object.entries(colours).map(([id, colour]) => {
      const said = colour.assumed && colour.uncertainty === undefined ? shadeSaid(colour.name) : null;
      if (!said) return [id, colour];
      return [id, { ...colour, hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty }];
    }),
  );
}
