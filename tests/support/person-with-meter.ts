// What a person with a meter or a test lamp makes of what is really there: accuracy, leads, words. Shared by every simulated vehicle.
// It must not know circuits or the diagnosis.

import type { Random } from './random.js';

export const METER_OHMS = 10e6;
const LEAD_OHMS = 0.2;
/** More than the largest range of the meter: it shows OL. */
const MOST_OHMS = 6e7;
/** Test lamp of 3 W. */
const LAMP_WATTS = 3;

export type SeenCondition = 'works' | 'weak' | 'dead' | 'reversed';

/** 6,000 counts, ranges 0.6, 6, 60, 600 V: off by up to 0.5 % and 2 digits (PRECISIONS, benchmark protocol). */
export function shownVolts(exact: number, random: Random): number {
  const range = [0.6, 6, 60].find((limit) => Math.abs(exact) <= limit) ?? 600;
  const digit = range / 6000;
  const off = random.between(-1, 1) * (0.005 * Math.abs(exact) + 2 * digit);
  return Math.round((exact + off) / digit) * digit;
}

/** Leads included; null: OL. */
export function shownOhms(exact: number | null, random: Random): number | null {
  return exact === null || exact > MOST_OHMS ? null : exact + LEAD_OHMS * random.between(0.7, 1.3);
}

export const lampOhms = (ratedVolts: number): number => ratedVolts ** 2 / LAMP_WATTS;

export function lampWord(volts: number, ratedVolts: number): 'bright' | 'dim' | 'dark' {
  const share = Math.abs(volts) / ratedVolts;
  return share > 0.6 ? 'bright' : share > 0.15 ? 'dim' : 'dark';
}

/** Half of what is wrong in a plug can be seen, and a few healthy ones look bad. */
export const inspectWord = (isWrong: boolean, random: Random): 'damaged' | 'clean' =>
  random.chance(isWrong ? 0.5 : 0.03) ? 'damaged' : 'clean';

export const wiggleWord = (comesAndGoesHere: boolean, random: Random): 'changes' | 'steady' =>
  random.chance(comesAndGoesHere ? 0.8 : 0.02) ? 'changes' : 'steady';
