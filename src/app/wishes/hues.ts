/** The colour families that may be wished for: the nouns of plain colour names, around the circle, then without hue. */
export const HUES = [
  "pink",
  "red",
  "orange",
  "brown",
  "yellow",
  "olive",
  "green",
  "blue",
  "violet",
  "purple",
  "grey",
  "white",
  "black",
] as const;
