// What builders call the kinds of parts, in English, German, French and Spanish, and what each means in the record. Data only.
// A word stands here only where it means one kind.

import type { PartKind } from '../part.js';

export interface KindMeaning {
  readonly kind: PartKind;
  /** Law of a load. */
  readonly law?: string;
  /** Further fields that the word says: style of a switch, contacts of a relay. */
  readonly fields?: Readonly<Record<string, string>>;
}

const KINDS: readonly (readonly [kind: PartKind, words: string, fields?: Readonly<Record<string, string>>])[] = [
  ['battery', 'battery, accumulator, batterie, starterbatterie, bateria, accu'],
  ['alternator', 'alternator, generator, dynamo, lichtmaschine, alternateur, alternador'],
  ['external-supply', 'external supply, bench supply, charger, power supply, netzteil, ladegerat, chargeur, cargador'],
  ['jump-posts', 'jump posts, jump post, jump start posts, starthilfepunkt'],
  [
    'converter',
    'converter, dc dc converter, dcdc, dc dc, voltage converter, b2b charger, solar regulator, spannungswandler, wandler, convertisseur, convertidor',
  ],
  [
    'split-charge-relay',
    'split charge relay, split charge, vsr, voltage sensitive relay, trennrelais, coupleur separateur',
  ],
  ['diode-isolator', 'diode isolator, battery isolator diode, isolator diodes, trenndiode, repartiteur'],
  [
    'master-switch',
    'master switch, battery switch, isolator, isolator switch, battery isolator, battery disconnect, hauptschalter, batterietrennschalter, coupe batterie, coupe circuit, desconectador',
  ],
  ['fuse', 'fuse, fuses, sicherung, fusible, fusibles'],
  ['fuse', 'midi fuse', { style: 'midi' }],
  ['fuse', 'mega fuse', { style: 'mega' }],
  ['fuse', 'maxi fuse', { style: 'maxi' }],
  ['fuse', 'mini fuse', { style: 'mini' }],
  ['fuse', 'blade fuse, flachsicherung', { style: 'blade' }],
  ['fuse', 'strip fuse, streifensicherung', { style: 'strip' }],
  ['fuse', 'glass fuse, glassicherung', { style: 'glass' }],
  ['fusible-link', 'fusible link, schmelzleiter'],
  ['breaker', 'breaker, circuit breaker, cb, automat, sicherungsautomat, disjoncteur, disyuntor'],
  ['relay', 'relay, relais, rele, make relay, schliesser'],
  ['relay', 'change over relay, changeover relay, wechselrelais, relais inverseur', { contacts: 'change-over' }],
  ['switch', 'switch, toggle, toggle switch, rocker, rocker switch, schalter, interrupteur, interruptor'],
  [
    'switch',
    'button, push button, pushbutton, momentary switch, taster, bouton, bouton poussoir, pulsador',
    { style: 'momentary' },
  ],
  ['switch', 'change over switch, changeover switch, wechselschalter, inverseur, conmutador', { style: 'change-over' }],
  [
    'switch',
    'ignition switch, ignition, key switch, zundschloss, zundschalter, contacteur, llave de contacto',
    { style: 'ignition' },
  ],
  ['switch', 'rotary switch, drehschalter', { style: 'rotary' }],
  [
    'sensor-switch',
    'sensor switch, pressure switch, brake switch, brake light switch, door switch, temperature switch, seat switch, oil pressure switch, bremslichtschalter, oldruckschalter, turkontakt, pressostat, contacteur de stop, interruptor de freno',
  ],
  [
    'flasher',
    'flasher, flasher unit, flasher relay, indicator relay, blinkgeber, blinkrelais, centrale clignotante, intermitente rele',
  ],
  [
    'connector',
    'connector, plug, conn, inline connector, steckverbinder, stecker, steckverbindung, connecteur, fiche, conector',
  ],
  ['splice', 'splice, joint, solder joint, spleiss, quetschverbinder, lotstelle, epissure, empalme'],
  ['busbar', 'busbar, bus bar, bus, distribution bar, sammelschiene, barre, jeu de barres, barra'],
  [
    'ground',
    'ground, earth, gnd, ground stud, ground point, earth point, masse, massepunkt, point de masse, masa, tierra',
  ],
  ['ground-block', 'ground block, ground bar, earth block, earth bar, masseblock, barre de masse, bloque de masa'],
  ['body', 'body, chassis, frame, metal body, karosserie, fahrgestell, rahmen, caisse, carroceria, bastidor, chasis'],
  ['strap', 'strap, ground strap, earth strap, braid, masseband, tresse, tresse de masse, trenza'],
  ['tie', 'tie, accidental tie'],
  ['starter', 'starter, starter motor, anlasser, demarreur, motor de arranque'],
  ['module', 'module, ecu, controller, control unit, control module, steuergerat, calculateur, centralita'],
  ['resistor', 'resistor, widerstand, resistance, resistencia'],
  ['shunt', 'shunt, messwiderstand'],
  ['diode', 'diode, diodo'],
  ['suppressor', 'suppressor, entstordiode'],
  ['potentiometer', 'potentiometer, pot, throttle sensor, level sender, poti, potentiometre, potenciometro'],
  [
    'thermistor',
    'thermistor, ntc, temperature sensor, temp sensor, temperature sender, temperaturfuhler, sonde de temperature, termistor',
  ],
  [
    'bus-terminator',
    'bus terminator, terminator, termination resistor, abschlusswiderstand, resistance de terminaison',
  ],
];

const LOADS: readonly (readonly [law: string, words: string])[] = [
  [
    'filament',
    'lamp, bulb, light, lamps, headlamp, headlight, tail lamp, stop lamp, brake light, indicator, marker lamp, fog lamp, halogen, lampe, gluhlampe, birne, scheinwerfer, blinker, leuchte, ampoule, feu, phare, bombilla, lampara, faro',
  ],
  ['led', 'led, led lamp, led light, led bar, light bar, warning light led, led leuchte, led lampe'],
  [
    'motor',
    'motor, pump, fuel pump, water pump, bilge pump, fan, blower, wiper, wiper motor, winch, actuator, window motor, pumpe, kraftstoffpumpe, lufter, geblase, wischer, winde, moteur, pompe, ventilateur, treuil, bomba, ventilador, cabrestante',
  ],
  [
    'resistive',
    'load, resistive load, horn, buzzer, siren, solenoid, valve, solenoid valve, coil, gauge, hupe, sirene, magnetventil, verbraucher, last, klaxon, avertisseur, electrovanne, bocina, sirena, electrovalvula, carga',
  ],
  [
    'heater',
    'heater, heated seat, glow plug, heated mirror, heizung, gluhkerze, sitzheizung, chauffage, bougie de prechauffage, calefactor, bujia',
  ],
  [
    'constant-power',
    'constant power, radio, device, electronics, gps, navigation, display, camera, tracker, phone charger, usb, usb socket, fridge, amplifier, gerat, funk, kuhlschrank, autoradio, refrigerateur, equipo, nevera',
  ],
];

export const KIND_BY_WORD: ReadonlyMap<string, KindMeaning> = new Map([
  ...KINDS.flatMap(([kind, words, fields]) =>
    words.split(', ').map((word): [string, KindMeaning] => [word, fields === undefined ? { kind } : { kind, fields }]),
  ),
  ...LOADS.flatMap(([law, words]) =>
    words.split(', ').map((word): [string, KindMeaning] => [word, { kind: 'load', law }]),
  ),
]);
