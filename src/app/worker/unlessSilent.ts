/** Work that has fallen silent is given up: a picture that is never unpacked, or a page on which nothing ends, would be waited for for ever. */

/** Milliseconds between two looks. Looks are counted, not the clock: a computer that slept has not waited. Our choice. */
const LOOK = 5000;

/**
 * @param work tells by `heard` that it goes on
 * @param silence milliseconds without a word after which nobody waits any more
 * @param giveUp what is answered then
 */
export function unlessSilent<T>(
  work: (heard: () => void) => Promise<T>,
  silence: number,
  giveUp: () => T | Promise<T>,
): Promise<T> {
  let looks = 0;
  let timer: ReturnType<typeof setInterval> | undefined;
  const silent = new Promise<T>((resolve) => {
    timer = setInterval(() => {
      looks += 1;
      if (looks * LOOK >= silence) resolve(giveUp());
    }, LOOK);
  });
  return Promise.race([work(() => (looks = 0)), silent]).finally(() => clearInterval(timer));
}
