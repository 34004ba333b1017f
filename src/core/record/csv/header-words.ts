// Words that builders put at the head of a column, in English, German, French and Spanish, by sheet and field. Data only.
// A word that means different things on different sheets stands under each of them; accents and case do not count.

import type { SheetName } from './columns.js';

type Words = Readonly<Record<string, string>>;

/** Beside the names of the record's own fields. Words are separated by commas, in lower case, without accents. */
export const HEADER_WORDS: Readonly<Partial<Record<SheetName, Words>>> = {
  parts: {
    address:
      'part, ref, reference, designator, id, tag, device, component, item, label, part no, bezeichnung, kennzeichen, bauteil, bmk, betriebsmittel, teil, repere, composant, piece, referencia, componente, pieza',
    kind: 'type, part type, category, class, art, typ, bauart, genre, categorie, tipo, clase, categoria',
    name: 'description, title, what it is, beschreibung, benennung, designation, descripcion, nombre, nom',
    rating:
      'value, rated, power, spec, wert, nennwert, leistung, daten, sicherungswert, valeur, calibre, puissance, valor, potencia',
    terminals:
      'pins, terminal, pin names, anschlusse, klemmen, kontakte, pole, bornes, broches, poles, terminales, pines, polos',
    cavities: 'ways, positions, pin count, polzahl, voies, alveoles, vias, cavidades',
    location: 'where, place, position, ort, einbauort, lage, emplacement, lieu, ubicacion, lugar',
    on: 'body, chassis, frame, ground on, karosserie, rahmen, masse an, masse sur, chasis, bastidor',
    assembly: 'box, unit, module group, baugruppe, einheit, ensemble, boitier, conjunto, caja',
    panel: 'cover, abdeckung, klappe, capot, tapa, cubierta',
    notes:
      'note, remark, remarks, comment, comments, bemerkung, bemerkungen, notiz, anmerkung, remarque, remarques, commentaire, nota, notas, comentario, observaciones',
    style: 'form, ausfuhrung, forme, estilo, forma',
    ratedWatts: 'watts, watt, wattage',
    ratingAmps: 'amps, ampere, amperes, fuse, sicherung, fusible, amperaje',
    ratedVolts: 'volts, volt, voltage, spannung, tension, voltaje',
    resistanceOhms: 'ohms, ohm, widerstand, resistencia',
    capacityAmpHours: 'capacity, kapazitat, capacite, capacidad',
    size: 'gauge, awg, querschnitt, section, seccion, calibre awg',
    lengthMetres: 'length, lange, longueur, longitud, largo',
    access: 'reach, zugang, acces, acceso',
    rest: 'rest position, normal, ruhestellung, repos, reposo',
    law: 'behaviour, verhalten, comportement, comportamiento',
  },
  wires: {
    label:
      'wire, wire no, wire number, wire id, number, no, nr, cable no, conductor, name, id, leitung, leitungsnummer, ader, draht, drahtnummer, kabel, kabelnummer, nummer, fil, numero, numero de fil, repere, hilo, cable numero, etiqueta',
    from: 'start, source, origin, a, end a, end 1, point a, von, anfang, quelle, de, depart, origine, desde, origen',
    to: 'end, destination, dest, target, b, end b, end 2, point b, nach, bis, ziel, ende, zu, vers, arrivee, a destination, hasta, destino',
    fromPin:
      'from pin, from terminal, from cavity, start pin, source pin, pin a, von pin, von klemme, von anschluss, pin von, borne de depart, broche de depart, pin origen, borne origen',
    toPin:
      'to pin, to terminal, to cavity, end pin, dest pin, destination pin, pin b, nach pin, nach klemme, zu pin, zu klemme, pin nach, borne d arrivee, broche d arrivee, pin destino, borne destino',
    colour: 'color, wire color, wire colour, farbe, aderfarbe, farbcode, couleur, couleur du fil',
    size: 'gauge, wire size, wire gauge, awg, mm2, sqmm, cross section, csa, area, querschnitt, section, seccion, calibre',
    lengthMetres: 'length, len, wire length, lange, leitungslange, longueur, long, longitud, largo',
    circuit:
      'function, signal, net, description, purpose, use, funktion, stromkreis, verwendung, beschreibung, fonction, usage, funcion, circuito, senal, descripcion',
    notes:
      'note, remark, remarks, comment, comments, bemerkung, bemerkungen, notiz, anmerkung, remarque, remarques, commentaire, nota, notas, comentario, observaciones',
    route: 'segments, path, bundle, weg, strecke, bundel, chemin, faisceau, ruta, mazo',
    cable: 'multicore, mantelleitung, cable multiple, manguera',
    access: 'reach, zugang, acces, acceso',
  },
  functions: {
    part: 'address, load, lamp, bauteil, composant, componente',
    name: 'function, funktion, fonction, funcion',
  },
  contacts: {
    part: 'address, switch, schalter, interrupteur, interruptor',
    position: 'state, stellung, posicion',
    joins: 'joined, connects, verbindet, relie, une',
  },
  modules: {
    part: 'address, module, ecu, steuergerat, calculateur, modulo',
    pin: 'pin type, what, art, type, tipo',
    terminal: 'pin no, klemme, anschluss, borne, broche',
  },
  cavities: { part: 'address, connector, stecker, connecteur, conector' },
  'double-crimps': { point: 'terminal, at, klemme, borne', wires: 'labels, leitungen, fils, cables, hilos' },
  routes: { address: 'segment, id, route, strecke, tramo', lengthMetres: 'length, lange, longueur, longitud' },
  assemblies: {
    address: 'assembly, id, baugruppe, ensemble, conjunto',
    name: 'description, beschreibung, designation, descripcion',
  },
  states: {
    state: 'name, zustand, etat, estado',
    what: 'kind, sets',
    item: 'part, address, at',
    value: 'to, wert, valeur, valor',
  },
  findings: { code: 'finding', at: 'points', reason: 'why, grund, raison, motivo' },
  record: { field: 'key, name, feld, champ, campo', value: 'wert, valeur, valor' },
};

/** Names of sheets and files. */
export const SHEET_WORDS: Readonly<Record<SheetName, string>> = {
  record: 'record, vehicle, harness, fahrzeug, vehicule, vehiculo',
  parts:
    'parts, part list, components, devices, bom, bauteile, teile, teileliste, stuckliste, composants, pieces, componentes, piezas',
  functions: 'functions, load functions, loads, lamps, funktionen, fonctions, funciones',
  contacts: 'contacts, switch positions, contact table, switches, kontakte, schalter, contactos',
  modules: 'modules, module pins, pins, ecu, steuergerate, modulos',
  cavities: 'cavities, bridges, connectors, stecker, connecteurs, conectores',
  wires:
    'wires, wire list, wirelist, wiring, cables, leitungen, leitungsliste, kabel, kabelliste, verdrahtung, fils, liste de fils, cableado, hilos',
  'double-crimps': 'double crimps, double crimp, doppelcrimps',
  routes: 'routes, segments, paths, wege, strecken, chemins, rutas',
  assemblies: 'assemblies, boxes, baugruppen, ensembles, conjuntos',
  states: 'states, operating states, zustande, etats, estados',
  findings: 'findings, accepted findings, befunde',
};
