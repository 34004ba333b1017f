/**
 * Suspect groups as the person sees them: what, where, how likely, how to mend it, and what would tell its members apart.
 * It must not weigh or group.
 */
import { leadOf, type SuspectGroup } from './groups.js';
import type { Hypothesis } from './hypotheses.js';
import type { Inquiry } from './inquiry.js';
import type { Suspect } from './shapes/hunt.js';
import { shortName } from './short-names.js';
import type { Posterior } from './suspects.js';

const KIND_WORDS = {
  healthy: 'nothing is wrong: it works as recorded',
  'record-wrong': 'the vehicle is not wired as recorded',
  unknown: 'something that is not in the catalogue of faults',
} as const;

/** Sites below this share of their group are not spelled out. */
const SHOWN_SHARE = 0.01;
const MOST_SITES = 12;

export function explainSuspect(posterior: Posterior, group: SuspectGroup): Suspect {
  const { inquiry } = posterior;
  const shown = group.sites
    .filter(({ probability }, i) => i === 0 || probability > SHOWN_SHARE * group.probability)
    .slice(0, MOST_SITES);
  const sites = shown.map((site) => ({
    repair: site.repair,
    name: shortName(inquiry.model, leadOf(inquiry, site)),
    description: describeSite(leadOf(inquiry, site)),
    probability: site.probability,
    location: locationOf(inquiry, leadOf(inquiry, site)),
  }));
  const hypothesis = leadOf(inquiry, group.sites[0]);
  const kind = hypothesis.faults.length > 0 ? 'fault' : (hypothesis.kind as 'healthy' | 'record-wrong' | 'unknown');
  return {
    id: group.id,
    kind,
    name: sites.length === 1 ? sites[0].name : `${sites[0].name}, or ${sites.length - 1} more in the same stretch`,
    description: sites.length === 1 ? sites[0].description : groupWords(sites),
    probability: group.probability,
    sites,
    repair: repairWords(inquiry, { ...group, sites: shown }),
    toTellApart: sites.length > 1 ? splitWords(inquiry, group) : null,
  };
}

function describeSite({ faults, kind }: Hypothesis): string {
  if (faults.length === 0) return KIND_WORDS[kind as keyof typeof KIND_WORDS];
  return faults.map(({ description }) => description).join('; and ');
}

function locationOf({ model }: Inquiry, { faults: [fault] }: Hypothesis): string | null {
  if (fault?.element === null || fault === undefined) return null;
  const element = model.graph.elements.get(fault.element);
  if (element === undefined) return null;
  const places = [element.a, element.b].flatMap((point) => model.graph.points.get(point)?.location ?? []);
  return places.length === 0 ? null : [...new Set(places)].join(' to ');
}

function groupWords(sites: readonly { readonly description: string }[]): string {
  const [first, ...rest] = sites;
  return `${first.description}, or ${rest.length === 1 ? rest[0].description : `one of ${rest.length} more in the same stretch`}`;
}

function repairWords(inquiry: Inquiry, { sites }: SuspectGroup): string {
  const { faults, kind } = leadOf(inquiry, sites[0]);
  if (faults.length === 0)
    return kind === 'healthy' ? 'none' : 'compare vehicle and record along this circuit and correct the record';
  const acts = new Set(
    sites.flatMap((site) =>
      leadOf(inquiry, site).faults.map(({ mode, owner, element, description }) => {
        switch (mode) {
          case 'short-to-body':
          case 'short-to-neighbour':
            return `part and insulate ${description.replace(/^(wires?|cavities) /, '$1 ')}, then a new fuse of the recorded rating`;
          case 'swapped-cavities':
            return `put the wires back as recorded: ${description}`;
          case 'premature-open':
          case 'missing':
          case 'wrong-rating':
            return `fit fuse ${owner} of the recorded rating, and watch whether it goes again`;
          case 'open':
          case 'high-resistance':
          case 'intermittent':
            return remakeWords(inquiry, element, owner);
          case 'battery-flat':
            return `charge ${owner} and test it under load; replace it if it does not hold`;
          default:
            return `replace ${owner}`;
        }
      }),
    ),
  );
  return [...acts].slice(0, 6).join('; or ');
}

/** What the hands do to a bad joint, by what it is. */
function remakeWords({ model }: Inquiry, id: string | null, owner: string): string {
  const element = model.graph.elements.get(id ?? '');
  switch (element?.role) {
    case 'conductor':
      return `replace wire ${owner}, or splice in a new piece`;
    case 'termination':
      return `make the end of wire ${owner} at ${element.id.slice(element.id.indexOf('@') + 1)} anew`;
    case 'double-crimp':
      return `make the shared crimp at ${element.id.slice(1)} anew`;
    case 'mating':
      return `clean and tighten contact ${element.id.slice(element.id.indexOf(':') + 1)} of ${owner}, or replace it`;
    case 'joint':
      return `undo ${owner}, clean it to bare metal and bolt it up again`;
    default:
      return `remake ${id ?? owner}`;
  }
}

function splitWords(inquiry: Inquiry, { sites }: SuspectGroup): string {
  const { model } = inquiry;
  const elements = sites.flatMap((site) => leadOf(inquiry, site).faults.flatMap(({ element }) => element ?? []));
  const wires = new Set(
    elements.flatMap((id) => {
      const element = model.graph.elements.get(id);
      return element !== undefined && (element.role === 'termination' || element.role === 'conductor')
        ? [element.owner]
        : [];
    }),
  );
  return wires.size === 0
    ? 'taking it apart and looking'
    : `opening the loom at ${[...wires].slice(0, 4).join(', ')}: ohms from the bare end to each terminal, and a pull on each crimp`;
}
