/**
 * A probability as a person reads it.
 * It must not call anything certain: nothing is before the repair is proved.
 */
export function percentWords(share: number): string {
  return share > 0.99 ? 'over 99 %' : `${Math.round(100 * share)} %`;
}
