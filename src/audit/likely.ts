/** Her yarns as they may really be: seeded draws from what is not known of their shades. */
import type { Vector3 } from "../base/matrix3.ts";
import { seededRandom } from "../base/random.ts";
import { shadeOff, threeNormals } from "../colour/shadeDraw.ts";
import { labOfYarn, uncertaintyOfYarn, type Yarn } from "../yarn/yarn.ts";

/** The yarns in one draw: each as far off as its uncertainty makes likely, whichever others are drawn with it. */
export function likelyYarns(yarns: readonly Yarn[], draw: number): Yarn[] {
  return yarns.map((yarn) => {
    const uncertainty = uncertaintyOfYarn(yarn);
    const lab = shadeOff(labOfYarn(yarn), uncertainty, offsOf(yarn.id, draw));
    return { ...yarn, shade: { lab, uncertainty } };
  });
}

/** How far off a yarn is in a draw: the same for every question, so that two answers differ by what was asked and not by chance. */
export function offsOf(yarn: string, draw: number): Vector3 {
  let seed = draw + 1;
  for (let at = 0; at < yarn.length; at++) seed = Math.imul(seed ^ yarn.charCodeAt(at), 0x01000193);
  const random = seededRandom(seed);
  random();
  return threeNormals(random);
}
