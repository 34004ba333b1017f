// Sheets as builders keep them: their headers, delimiters, units and words in four languages; what is guessed is warned of.
// It must not repeat the single mistakes of bad-input.test.ts.

import { describe, expect, it } from 'vitest';
import { type CsvOptions, readCsv } from '../../../src/core/record/read-csv.js';
import type { HarnessRecord } from '../../../src/core/record/record.js';

const PARTS = 'address,kind,rating\nBAT1,battery,12 V 60 Ah\nF1,fuse,10 A\nE1,lamp,21 W\nG1,ground,\n';
const WIRES =
  'label,from,to,colour,size,length\nL1,BAT1/+,F1/in,red,2.5,0.4\nL2,F1/out,E1/+,yellow,1.5,1.2\nL3,E1/-,G1,brown,1.5,0.5\nL4,BAT1/-,G1,black,10,0.6\n';

function read(
  parts: string,
  wires: string,
  options: CsvOptions = {},
  names: readonly [string, string] = ['parts.csv', 'wires.csv'],
): HarnessRecord {
  const parsed = readCsv(
    [
      { name: names[0], text: parts },
      { name: names[1], text: wires },
    ],
    options,
  );
  expect(parsed.ok ? [] : parsed.issues).toEqual([]);
  return (parsed as { record: HarnessRecord }).record;
}

const reference = read(PARTS, WIRES);

describe('a plain parts list and wire list', () => {
  it('become parts of their kinds, with the one body assumed', () => {
    expect(reference.parts).toEqual([
      { address: 'BAT1', kind: 'battery', nominalVolts: 12, capacityAmpHours: 60 },
      { address: 'F1', kind: 'fuse', ratingAmps: 10 },
      { address: 'E1', kind: 'load', functions: [{ name: 'main', law: 'filament', ratedWatts: 21 }] },
      { address: 'G1', kind: 'ground', on: 'CHASSIS' },
      { address: 'CHASSIS', kind: 'body' },
    ]);
    expect(reference.wires[1]).toEqual({
      label: 'L2',
      from: 'F1/out',
      to: 'E1/feed',
      size: '1.5 mm²',
      lengthMetres: 1.2,
      colour: 'YE',
    });
  });

  it.each([
    ['semicolons', WIRES.replaceAll(',', ';')],
    ['tabs', WIRES.replaceAll(',', '\t')],
    ['CRLF', WIRES.replaceAll('\n', '\r\n')],
    ['lone CR', WIRES.replaceAll('\n', '\r')],
    ['a byte-order mark', `\uFEFF${WIRES}`],
    ['no last line end', WIRES.trimEnd()],
    ['blank rows and trailing delimiters', WIRES.replaceAll('\n', ',,\n\n,,,\n')],
    [
      'every cell quoted',
      WIRES.trimEnd()
        .split('\n')
        .map((row) =>
          row
            .split(',')
            .map((cell) => `"${cell}"`)
            .join(','),
        )
        .join('\n'),
    ],
    ['a title above the header', `Lighting harness,,,,,\n,,,,,\n${WIRES}`],
    [
      'capitals and underscores in the header',
      WIRES.replace('label,from,to,colour,size,length', 'WIRE_NO,From,TO,Wire Color,GAUGE,Length'),
    ],
    ['decimal commas', WIRES.replaceAll(',', ';').replace(/(\d)\.(\d)/g, '$1,$2')],
  ])('read the same with %s', (_, wires) => {
    expect(read(PARTS, wires)).toEqual(reference);
  });

  it('keep quoted delimiters, quotes and line breaks', () => {
    const wires = WIRES.replace('length\n', 'length,notes\n').replace(
      '0.4\n',
      '0.4,"loom, left; ""upper""\nthen down"\n',
    );
    expect(read(PARTS, wires).wires[0]!.notes).toBe('loom, left; "upper"\nthen down');
  });

  it('undo the guard against formulas', () => {
    const wires = WIRES.replace('length\n', 'length,notes\n')
      .replace('0.4\n', "0.4,'=see L2\n")
      .replace('1.2\n', "1.2,'tis\n");
    expect(read(PARTS, wires).wires.map(({ notes }) => notes)).toEqual(['=see L2', "'tis", undefined, undefined]);
  });
});

describe('headers', () => {
  it.each([
    [
      'German',
      'Bezeichnung;Art;Nennwert\nBAT1;Batterie;12 V 60 Ah\nF1;Sicherung;10 A\nE1;Glühlampe;21 W\nG1;Masse;\n',
      'Leitung;von;nach;Farbe;Querschnitt;Länge\nL1;BAT1/+;F1/in;rot;2,5 mm²;40 cm\nL2;F1/out;E1/+;gelb;1,5;1,2 m\nL3;E1/-;G1;braun;1,5;0,5\nL4;BAT1/-;G1;schwarz;10;0,6\n',
    ],
    [
      'French',
      'Repère;Type;Calibre\nBAT1;batterie;12 V 60 Ah\nF1;fusible;10 A\nE1;ampoule;21 W\nG1;masse;\n',
      'Fil;de;vers;Couleur;Section;Longueur\nL1;BAT1/+;F1/in;rouge;2,5;0,4\nL2;F1/out;E1/+;jaune;1,5;1,2\nL3;E1/-;G1;brun;1,5;0,5\nL4;BAT1/-;G1;noir;10;0,6\n',
    ],
    [
      'Spanish',
      'Referencia;Tipo;Valor\nBAT1;batería;12 V 60 Ah\nF1;fusible;10 A\nE1;bombilla;21 W\nG1;masa;\n',
      'Hilo;desde;hasta;Color;Sección;Longitud\nL1;BAT1/+;F1/in;rojo;2,5;0,4\nL2;F1/out;E1/+;amarillo;1,5;1,2\nL3;E1/-;G1;marrón;1,5;0,5\nL4;BAT1/-;G1;negro;10;0,6\n',
    ],
  ])('in %s mean the same', (_, parts, wires) => {
    expect(read(parts, wires)).toEqual(reference);
  });

  it('state the unit of bare numbers below', () => {
    const wires = WIRES.replace('size,length', 'AWG,Length (cm)').replaceAll(
      /(red|yellow|brown|black),[\d.]+,[\d.]+/g,
      '$1,18,120',
    );
    expect(read(PARTS, wires).wires[0]).toMatchObject({ size: '18 AWG', lengthMetres: 1.2 });
    const feet = WIRES.replace('length', 'length ft').replace('0.4\n', '"4 ft 3 in"\n').replace('1.2\n', '10\n');
    expect(
      read(PARTS, feet)
        .wires.slice(0, 2)
        .map(({ lengthMetres }) => lengthMetres),
    ).toEqual([1.2954, 3.048]);
  });

  it('can be mapped by hand, by field or by a header of ours, and left out', () => {
    const wires = WIRES.replace('label,from,to,colour,size,length', 'cct,a end,z end,insulation,thickness,run');
    const columns = {
      wires: {
        cct: 'label',
        'a end': 'from',
        'z end': 'to',
        insulation: 'colour',
        thickness: 'size',
        run: 'length (m)',
      },
    };
    expect(read(PARTS, wires, { columns })).toEqual(reference);
    const without = read(PARTS, WIRES, { columns: { '*': { colour: '' } } });
    expect(without.wires[0]!.colour).toBeUndefined();
  });

  it('that mean nothing are warned of, with those that do', () => {
    const parsed = readCsv([
      { name: 'parts', text: PARTS },
      { name: 'wires', text: WIRES.replace('length\n', 'length,price\n') },
    ]);
    expect(parsed.warnings.filter(({ code }) => code === 'column-ignored')).toMatchObject([
      { path: 'wires row 1 column price', accepted: expect.stringContaining('length (m)') },
    ]);
  });

  it('give a sheet away whose name says nothing', () => {
    expect(read(PARTS, WIRES, {}, ['Sheet1.csv', 'Sheet2.csv'])).toEqual(reference);
  });
});

describe('what builders write in cells', () => {
  it('wire numbers and names with blanks become addresses, with a warning each', () => {
    const parts = PARTS.replace('F1,', 'Fuse 1,');
    const wires = WIRES.replaceAll('F1/', 'fuse 1/').replace('L1,', '101,');
    const parsed = readCsv([
      { name: 'parts', text: parts },
      { name: 'wires', text: wires },
    ]);
    expect(parsed.ok && parsed.record.wires[0]).toMatchObject({ label: 'W101', to: 'Fuse_1/in' });
    expect(parsed.warnings.filter(({ code }) => code === 'address-respelled').map(({ path }) => path)).toEqual([
      'parts row 3 column address',
      'wires row 2 column label',
    ]);
  });

  it('pins in columns of their own are joined to their parts', () => {
    const wires = 'wire,from,from pin,to,to pin,size\nL1,BAT1,+,F1,1,2.5\nL2,F1,2,E1,+,1.5\n';
    expect(read(PARTS, wires).wires.map(({ from, to }) => [from, to])).toEqual([
      ['BAT1/pos', 'F1/in'],
      ['F1/out', 'E1/feed'],
    ]);
  });

  it.each([
    ['lamp', '55 W', { law: 'filament', ratedWatts: 55 }],
    ['LED', '2 W', { law: 'led', ratedWatts: 2 }],
    ['fuel pump', '8A', { law: 'motor', ratedAmps: 8 }],
    ['Horn', '12 V 5 A', { law: 'resistive', ratedVolts: 12, ratedAmps: 5 }],
    ['Ventilateur', '80', { law: 'motor', ratedWatts: 80 }],
    ['radio', '0,5 A', { law: 'constant-power', ratedAmps: 0.5 }],
    ['heated seat', '2.4 Ω', { law: 'heater', resistanceOhms: 2.4 }],
  ])('a %s of %s is a load', (kind, rating, expected) => {
    const record = read(PARTS.replace('lamp,21 W', `${kind},"${rating}"`), WIRES);
    expect(record.parts[2]).toEqual({ address: 'E1', kind: 'load', functions: [{ name: 'main', ...expected }] });
  });

  it.each([
    [
      'relay',
      '12 V 30 A',
      '30 85 86 87 87a',
      { kind: 'relay', contacts: 'change-over', nominalVolts: 12, contactRatingAmps: 30 },
    ],
    ['push button', '10 A', '', { kind: 'switch', style: 'momentary', contactRatingAmps: 10 }],
    ['Zündschloss', '', '', { kind: 'switch', style: 'ignition' }],
    ['midi fuse', '100', '', { kind: 'fuse', style: 'midi', ratingAmps: 100 }],
    ['plug', '', '12', { kind: 'connector', cavities: 12 }],
    ['plug', '', 'A B C', { kind: 'connector', cavities: ['A', 'B', 'C'] }],
    ['busbar', '', '1-6', { kind: 'busbar', terminals: 6 }],
    ['resistor', '4k7', '', { kind: 'resistor', resistanceOhms: 4700 }],
  ])('a %s %s %s is read by its kind', (kind, rating, terminals, expected) => {
    const parts = `address,kind,rating,terminals\n${PARTS.split('\n')
      .slice(1)
      .filter((row) => row !== '')
      .map((row) => `${row},`)
      .join('\n')}\nZ1,${kind},${rating},${terminals}\n`;
    expect(read(parts, WIRES).parts.find(({ address }) => address === 'Z1')).toEqual({ address: 'Z1', ...expected });
  });

  it('a lamp with two filaments has two functions on one return', () => {
    const parts = `address,kind,rating,terminals\nBAT1,battery,,\nG1,ground,,\nE1,headlamp,60/55 W,56a 56b 31\n`;
    const wires = 'label,from,to,size\nL1,BAT1/+,E1/56a,1.5\nL2,E1/31,G1,1.5\n';
    expect(read(parts, wires).parts[2]).toMatchObject({
      functions: [
        { name: '56a', feed: '56a', return: '31', ratedWatts: 60 },
        { name: '56b', feed: '56b', return: '31', ratedWatts: 55 },
      ],
    });
  });

  it('a part that only the wire list mentions is an error in the wire list', () => {
    const parsed = readCsv([
      { name: 'parts', text: PARTS },
      { name: 'wires', text: `${WIRES}L5,F1/out,E9/+,red,1.5,1\n` },
    ]);
    expect(parsed).toMatchObject({
      ok: false,
      issues: [{ code: 'unknown-part', path: 'wires row 6 column to', value: 'E9/+' }],
    });
  });

  it('all bad rows are told at once', () => {
    const parsed = readCsv([
      { name: 'parts.csv', text: PARTS.replace('10 A', 'ten').replace('lamp', 'gizmo') },
      { name: 'wires.csv', text: WIRES.replace('2.5,0.4', '2.6,0').replace('black', 'plaid') },
    ]);
    expect(parsed.ok ? [] : parsed.issues.map(({ path }) => path).sort()).toEqual([
      'parts.csv row 3 column rating',
      'parts.csv row 4 column kind',
      'wires.csv row 2 column length',
      'wires.csv row 2 column size',
      'wires.csv row 5 column colour',
    ]);
  });

  it('a row that stands twice in the same words counts once, with a warning', () => {
    const twice = readCsv([
      { name: 'parts', text: `${PARTS}F1,fuse,10 A\n` },
      { name: 'wires', text: WIRES },
    ]);
    expect(twice.ok && twice.record).toEqual(reference);
    expect(twice.warnings).toContainEqual(
      expect.objectContaining({ code: 'row-repeated', path: 'parts row 6', value: 'F1' }),
    );
    const differing = readCsv([
      { name: 'parts', text: `${PARTS}F1,fuse,15 A\n` },
      { name: 'wires', text: WIRES },
    ]);
    expect(differing).toMatchObject({
      ok: false,
      issues: [{ code: 'duplicate-address', path: 'parts row 6 column address' }],
    });
  });

  it('two sheets of one kind are read one after the other', () => {
    const [header, ...rows] = WIRES.trimEnd().split('\n');
    const parsed = readCsv([
      { name: 'parts.csv', text: PARTS },
      { name: 'wires front.csv', text: [header, ...rows.slice(0, 2)].join('\n') },
      { name: 'wires rear.csv', text: [header, ...rows.slice(2)].join('\n') },
    ]);
    expect(parsed.ok && parsed.record).toEqual(reference);
  });
});
