// Fields of the record that a column can be said to hold, in the words of the sheets.
// It must not match headers: the server does, and this list is only for saying otherwise.

export const columnFields: readonly (readonly [
  sheet: string,
  fields: readonly (readonly [id: string, words: string])[],
])[] = [
  [
    'Wires',
    [
      ['label', 'label of the wire'],
      ['from', 'from: part, plug or point'],
      ['fromPin', 'from: pin or terminal'],
      ['to', 'to: part, plug or point'],
      ['toPin', 'to: pin or terminal'],
      ['size', 'size (AWG, mm²)'],
      ['lengthMetres', 'length'],
      ['colour', 'colour'],
      ['circuit', 'what the wire is for'],
      ['route', 'segments it runs through'],
      ['cable', 'cable it is a core of'],
    ],
  ],
  [
    'Parts',
    [
      ['address', 'address on the label'],
      ['kind', 'kind of part'],
      ['name', 'name'],
      ['rating', 'rating'],
      ['ratedVolts', 'rated volts'],
      ['ratedWatts', 'rated watts'],
      ['ratedAmps', 'rated amps'],
      ['cavities', 'cavities'],
      ['on', 'body it is fixed to'],
      ['location', 'location'],
      ['access', 'access'],
      ['panel', 'panel to take off'],
      ['assembly', 'assembly it comes out with'],
      ['exposure', 'exposure'],
    ],
  ],
  ['Any', [['notes', 'notes']]],
];
