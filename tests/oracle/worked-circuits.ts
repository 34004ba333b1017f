// Worked DC circuits that others have published: nets, answers and where they stand.
// Data only. Nothing here was computed by our own solver.

export interface WorkedCircuit {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  /** `V1 1 0 9; R1 1 2 3000`: V and I sources and resistors between two nodes; node 0 is the reference. Volts, amps, ohms. */
  readonly net: string;
  /** Question, published value, and half of its last printed digit. */
  readonly answers: readonly (readonly [question: string, published: number, tolerance: number])[];
}

const BOOK = 'Lessons In Electric Circuits, vol. I DC (T. Kuphaldt), open book; seen';
const BOOK_AC =
  'Lessons In Electric Circuits, vol. II AC, polyphase chapter (resistive, so valid for DC), open book; seen';
const OWN = 'derived from c08 by hand, no publisher';
const ARMY_MANUAL = 'TM 9-8000 Principles of Automotive Vehicles, figures 11-12 and 11-13, public domain; seen';
const DOE =
  'DOE Fundamentals Handbook, Electrical Science vol. 1, ES-02 figure 22, public domain; seen on a secondary page';
const ARMY_COURSE = 'US Army correspondence course IT0334, public domain; seen';
const NAVY = 'US Navy NEETS module 1, chapter 3, public domain; from memory';
const CABLE = 'a trade page with a size cable chart; seen';
const SCHULTZ = 'Problems in Basic Electronics (Schultz), as re-keyed in an open notebook; seen';

/**
 * Questions: `V(1,2)` volts between nodes, `V(3)` against node 0, `I(R1)` amps from the first node to the second, `I(V1)`
 * amps out of the plus terminal, `Q(V1)` ohms that a source sees.
 */
export const workedCircuits: readonly WorkedCircuit[] = [
  {
    id: 'c01',
    title: 'three resistors in series',
    source: BOOK,
    net: 'V1 1 0 9; R1 1 2 3000; R2 2 3 10000; R3 3 0 5000',
    answers: [
      ['V(1,2)', 1.5, 1e-9],
      ['V(2,3)', 5, 1e-9],
      ['V(3)', 2.5, 1e-9],
      ['I(V1)', 0.0005, 1e-9],
      ['Q(V1)', 18000, 1e-6],
    ],
  },
  {
    id: 'c02',
    title: 'three resistors in parallel',
    source: BOOK,
    net: 'V1 1 0 9; R1 1 0 10000; R2 1 0 2000; R3 1 0 1000',
    answers: [
      ['I(R1)', 0.0009, 1e-9],
      ['I(R2)', 0.0045, 1e-9],
      ['I(R3)', 0.009, 1e-9],
      ['Q(V1)', 625, 1e-6],
    ],
  },
  {
    id: 'c03',
    title: 'two parallel pairs in series',
    source: BOOK,
    net: 'V1 1 0 24; R1 1 4 100; R2 1 4 250; R3 4 0 350; R4 4 0 200',
    answers: [
      ['V(1,4)', 8.627, 0.0005],
      ['V(4)', 15.37, 0.005],
      ['I(R1)', 0.08627, 5e-6],
      ['I(R2)', 0.03451, 5e-6],
      ['I(R3)', 0.04392, 5e-6],
      ['I(R4)', 0.07686, 5e-6],
      ['I(V1)', 0.12078, 5e-6],
      ['Q(V1)', 198.7, 0.005],
    ],
  },
  {
    id: 'c04',
    title: 'two batteries, one is charged backwards (branch and mesh current)',
    source: BOOK,
    net: 'V1 1 0 28; V2 3 0 7; R1 1 2 4; R2 2 0 2; R3 2 3 1',
    answers: [
      ['V(1,2)', 20, 1e-9],
      ['V(2)', 8, 1e-9],
      ['V(2,3)', 1, 1e-9],
      ['I(R1)', 5, 1e-9],
      ['I(R2)', 4, 1e-9],
      ['I(R3)', 1, 1e-9],
    ],
  },
  {
    id: 'c05',
    title: 'unbalanced Wheatstone bridge, 24 V',
    source: BOOK,
    net: 'V1 1 0 24; R1 1 2 150; R2 1 3 50; R3 2 3 100; R4 2 0 300; R5 3 0 250',
    answers: [
      ['V(1,2)', 6.345, 0.0005],
      ['V(1,3)', 4.69, 0.0005],
      ['V(3,2)', 1.655, 0.0005],
      ['V(2)', 17.655, 0.0005],
      ['V(3)', 19.31, 0.0005],
      ['I(R1)', 0.042299, 1e-6],
      ['I(R2)', 0.093793, 1e-6],
      ['I(R3)', -0.016552, 1e-6],
      ['I(R4)', 0.058851, 1e-6],
      ['I(R5)', 0.077241, 1e-6],
      ['I(V1)', 0.136092, 1e-6],
    ],
  },
  {
    id: 'c06',
    title: 'unbalanced bridge solved by delta-wye, 10 V',
    source: BOOK,
    net: 'V1 1 0 10; R1 1 2 12; R2 1 3 18; R3 2 3 6; R4 2 0 18; R5 3 0 12',
    answers: [
      ['V(1,2)', 4.706, 0.0005],
      ['V(1,3)', 5.294, 0.0005],
      ['V(2,3)', 0.5882, 5e-5],
      ['V(2)', 5.294, 0.0005],
      ['V(3)', 4.706, 0.0005],
    ],
  },
  {
    id: 'c07',
    title: 'five resistors, one source below ground',
    source: BOOK,
    net: 'V1 11 0 10; V2 22 0 -4; R1 11 1 2; R2 1 0 4; R3 1 2 2.5; R4 2 0 5; R5 2 22 1',
    answers: [
      ['V(1)', 3.809524, 5e-7],
      ['V(2)', -1.547619, 5e-7],
    ],
  },
  {
    id: 'c08',
    title: 'three-wire supply with shared return (balanced, 2 x 10 kW at 120 V)',
    source: BOOK_AC,
    net: 'V1 a 0 120; V2 0 b 120; RL1 a m 1.44; RL2 m b 1.44; RN m 0 0.01',
    answers: [
      ['V(a,b)', 240, 1e-9],
      ['V(a,m)', 120, 1e-6],
      ['V(m,b)', 120, 1e-6],
      ['I(RL1)', 83.33, 0.005],
      ['I(RL2)', 83.33, 0.005],
      ['I(RN)', 0, 1e-9],
    ],
  },
  {
    id: 'c08b',
    title: 'same, second load 2.88 ohm, return 0.01 ohm (ours)',
    source: OWN,
    net: 'V1 a 0 120; V2 0 b 120; RL1 a m 1.44; RL2 m b 2.88; RN m 0 0.01',
    answers: [
      ['V(a,m)', 119.587629, 1e-5],
      ['V(m,b)', 120.412371, 1e-5],
      ['I(RN)', 41.237113, 1e-5],
      ['V(m)', 0.412371, 1e-5],
    ],
  },
  {
    id: 'c08c',
    title: 'same, second load 2.88 ohm, shared return open (1e9 ohm)',
    source: OWN,
    net: 'V1 a 0 120; V2 0 b 120; RL1 a m 1.44; RL2 m b 2.88; RN m 0 1000000000',
    answers: [
      ['V(a,m)', 80.0, 1e-5],
      ['V(m,b)', 160.0, 1e-5],
      ['V(m)', 40.0, 1e-5],
    ],
  },
  {
    id: 'c09',
    title: '14 V, two 15 ohm wires, 250 ohm load, 20 C',
    source: BOOK,
    net: 'V1 1 0 14; W1 1 2 15; RL 2 3 250; W2 3 0 15',
    answers: [
      ['I(RL)', 0.05, 1e-9],
      ['V(1,2)', 0.75, 1e-9],
      ['V(2,3)', 12.5, 1e-9],
      ['V(3)', 0.75, 1e-9],
    ],
  },
  {
    id: 'c10',
    title: 'same at 35 C, wires 15.909 ohm (alpha 0.004041)',
    source: BOOK,
    net: 'V1 1 0 14; W1 1 2 15.909; RL 2 3 250; W2 3 0 15.909',
    answers: [
      ['I(RL)', 0.049677, 5e-7],
      ['V(1,2)', 0.79, 0.005],
      ['V(2,3)', 12.42, 0.005],
      ['Q(V1)', 281.82, 0.005],
    ],
  },
  {
    id: 'c11',
    title: '10 V battery with 0.2 ohm inside, 1 ohm load',
    source: BOOK,
    net: 'V1 1 0 10; RI 1 2 0.2; RL 2 0 1',
    answers: [
      ['I(RL)', 8.333, 0.0005],
      ['V(2)', 8.333, 0.0005],
    ],
  },
  {
    id: 'c12',
    title: 'battery load test, full: 13.2 V behind 0.1 ohm, 100 ohm load',
    source: BOOK,
    net: 'V1 1 0 13.2; RI 1 2 0.1; RL 2 0 100',
    answers: [['V(2)', 13.187, 0.0006]],
  },
  {
    id: 'c12',
    title: 'battery load test, slightly_low: 13.0 V behind 5 ohm, 100 ohm load',
    source: BOOK,
    net: 'V1 1 0 13.0; RI 1 2 5; RL 2 0 100',
    answers: [['V(2)', 12.381, 0.0006]],
  },
  {
    id: 'c12',
    title: 'battery load test, low: 11.5 V behind 20 ohm, 100 ohm load',
    source: BOOK,
    net: 'V1 1 0 11.5; RI 1 2 20; RL 2 0 100',
    answers: [['V(2)', 9.583, 0.0006]],
  },
  {
    id: 'c12',
    title: 'battery load test, dead: 7.5 V behind 50 ohm, 100 ohm load',
    source: BOOK,
    net: 'V1 1 0 7.5; RI 1 2 50; RL 2 0 100',
    answers: [['V(2)', 5.0, 0.0006]],
  },
  {
    id: 'c13',
    title: '10 Mohm meter on a 250 M / 250 M divider, 24 V',
    source: BOOK,
    net: 'V1 1 0 24; R1 1 2 250000000; R2 2 0 250000000; RM 2 0 10000000',
    answers: [
      ['V(2)', 0.8889, 5e-5],
      ['V(1,2)', 23.1111, 5e-5],
    ],
  },
  {
    id: 'c14',
    title: 'lighting circuit, 12 V, 6 ohm total',
    source: ARMY_MANUAL,
    net: 'V1 1 0 12; RL 1 0 6',
    answers: [['I(RL)', 2, 1e-9]],
  },
  {
    id: 'c15',
    title: 'same circuit, resistance grown to 8 ohm by bad joints',
    source: ARMY_MANUAL,
    net: 'V1 1 0 12; RL 1 2 6; RX 2 0 2',
    answers: [['I(RL)', 1.5, 1e-9]],
  },
  {
    id: 'c16',
    title: '40, 60, 100 ohm in series on 120 V',
    source: DOE,
    net: 'V1 1 0 120; R1 1 2 40; R2 2 3 60; R3 3 0 100',
    answers: [
      ['Q(V1)', 200, 1e-6],
      ['I(V1)', 0.6, 1e-9],
    ],
  },
  {
    id: 'c17',
    title: '10, 10, 5 ohm in series, 100 V',
    source: ARMY_COURSE,
    net: 'V1 1 0 100; R1 1 2 10; R2 2 3 10; R3 3 0 5',
    answers: [
      ['Q(V1)', 25, 1e-6],
      ['I(V1)', 4, 1e-9],
    ],
  },
  {
    id: 'c18',
    title: '10, 15, 30 ohm in series, 110 V',
    source: NAVY,
    net: 'V1 1 0 110; R1 1 2 10; R2 2 3 15; R3 3 0 30',
    answers: [
      ['Q(V1)', 55, 1e-6],
      ['I(V1)', 2, 1e-9],
    ],
  },
  {
    id: 'c19',
    title: '1.5 mm2 cable, 5 m at 12.7 mohm/m carrying 4.17 A (12 V)',
    source: CABLE,
    net: 'I1 1 0 4.17; W1 1 0 0.0635',
    answers: [['V(1)', 0.265, 0.0005]],
  },
  {
    id: 'c20',
    title: 'troubleshooting: measured 10.8, 9.0, 16.2 V where R1 = 120 ohm',
    source: SCHULTZ,
    net: 'V1 1 0 36; R1 1 2 120; RAB 2 3 100; R4 3 0 180',
    answers: [
      ['V(1,2)', 10.8, 1e-9],
      ['V(2,3)', 9.0, 1e-9],
      ['V(3)', 16.2, 1e-9],
    ],
  },
];
