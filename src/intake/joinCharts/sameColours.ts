/** Which chart colours of several charts are one colour: by their signs, by their names, and else by their shades. */
import { deltaE2000 } from "../../colour/difference.ts";
import { freeIds, ID_ORDER, type ReadChart, type ReadColour, type ReadSymbol } from "../readChart.ts";

export interface SameColours {
  /** For each chart, from its own id to the one that all share. */
  maps: ReadonlyMap<string, string>[];
  colours: Record<string, ReadColour>;
  symbols: Record<string, ReadSymbol>;
}

interface Entry {
  id: string;
  colour: ReadColour;
  symbol: ReadSymbol | undefined;
  /** The only one of its chart's colours that has no sign, where others have: the ground that is left blank. */
  blank: boolean;
}

/** Ids of the first chart stay; a colour that only a later one has keeps its id where that is free. */
export function sameColours(charts: readonly ReadChart[]): SameColours {
  const shared: Entry[] = [];
  const maps = charts.map((chart) => {
    const own = entriesOf(chart);
    const map = new Map<string, string>();
    const pairs = own
      .flatMap((entry) => shared.map((other) => ({ entry, other, far: farness(entry, other) })))
      .filter((pair): pair is typeof pair & { far: number } => pair.far !== null)
      .sort(
        (one, two) =>
          one.far - two.far || Number(two.entry.id === two.other.id) - Number(one.entry.id === one.other.id),
      );
    const taken = new Set<Entry>();
    for (const { entry, other } of pairs) {
      if (map.has(entry.id) || taken.has(other)) continue;
      map.set(entry.id, other.id);
      taken.add(other);
      learn(other, entry);
    }
    for (const entry of own) {
      if (map.has(entry.id)) continue;
      const ids = new Set(shared.map(({ id }) => id));
      const id = ids.has(entry.id) ? (freeIds(ids)[0] ?? ID_ORDER[0]!) : entry.id;
      map.set(entry.id, id);
      shared.push({ ...entry, id });
    }
    return map;
  });
  return {
    maps,
    colours: Object.fromEntries(shared.map(({ id, colour }) => [id, colour])),
    symbols: Object.fromEntries(shared.flatMap(({ id, symbol }) => (symbol ? [[id, symbol]] : []))),
  };
}

function entriesOf({ colours, symbols }: ReadChart): Entry[] {
  const bare = Object.keys(colours).filter((id) => symbols?.[id] === undefined);
  const signed = Object.keys(colours).length > bare.length;
  return Object.entries(colours).map(([id, colour]) => ({
    id,
    colour,
    symbol: symbols?.[id],
    blank: signed && bare.length === 1 && bare[0] === id,
  }));
}

/** One page has the key, the others only the signs. */
function learn(known: Entry, other: Entry): void {
  const name = known.colour.name ?? other.colour.name;
  const better = known.colour.assumed && (!other.colour.assumed || isGuessed(other.colour) > isGuessed(known.colour));
  known.colour = { ...(better ? other.colour : known.colour), ...(name === undefined ? {} : { name }) };
  if (known.symbol && other.symbol && known.symbol.text === null)
    known.symbol = { ...known.symbol, text: other.symbol.text };
}

/** A shade by its name is better than a grey. */
const isGuessed = ({ uncertainty }: ReadColour): number => (uncertainty === undefined ? 0 : 1);

/** How far two colours of two charts are apart, in ΔE00 or what we hold as much; null where they cannot be one. */
function farness(one: Entry, other: Entry): number | null {
  if ((one.symbol === undefined) !== (other.symbol === undefined)) return null;
  const shades = shadesApart(one.colour, other.colour);
  if (one.symbol && other.symbol) {
    const signs = signsApart(one.symbol, other.symbol);
    return signs === null || (shades ?? 0) > SAME_SHADE ? null : signs + (shades ?? 0);
  }
  if (one.blank && other.blank && (shades ?? 0) <= SAME_SHADE) return 0;
  const [name, otherName] = [one.colour.name?.toLowerCase(), other.colour.name?.toLowerCase()];
  if (name !== undefined && name === otherName) return 0;
  if (shades !== null) return shades > SAME_SHADE ? null : shades;
  // Where no shade is known, letters are all that can be the same.
  return one.id === other.id && (name === undefined || otherName === undefined) ? 1 : null;
}

/** Null where one of them is only assumed. */
const shadesApart = (one: ReadColour, other: ReadColour): number | null =>
  one.assumed || other.assumed ? null : deltaE2000(one.lab, other.lab);

function signsApart(one: ReadSymbol, other: ReadSymbol): number | null {
  if (one.text !== null && other.text !== null) return one.text === other.text ? 0 : null;
  if (!one.picture || !other.picture) return null;
  const [marks, others] = [one.picture.join(""), other.picture.join("")];
  if (marks.length !== others.length) return null;
  let apart = 0;
  for (let index = 0; index < marks.length; index++) apart += Math.abs(Number(marks[index]) - Number(others[index]));
  const share = apart / (9 * marks.length);
  return share > SAME_SIGN ? null : share * 100;
}

/** ΔE00 between one colour in two photographs of the same pages under one lamp; our choice, of two that could be meant the nearer counts. */
const SAME_SHADE = 12;
/** Mean difference of darkness between two prints of one sign, of 1; our choice. */
const SAME_SIGN = 0.2;
