/**
 * What an amount in a client's text answers: a table, a line a rule, the first that fits counts. A new way of saying something is a new line, and an enquiry in
 * `tests/enquiry` that is read rightly by it.
 */
import type { Quantity } from './amounts.ts';
import { type Owner, WORDS } from './nouns.ts';

/** What can be said of a place, its lights and its supply, whatever a template calls it (`givens.ts`). */
export type Meaning =
  | 'length'
  | 'width'
  | 'headroom'
  | 'gap'
  | 'highest mount'
  | 'mount height'
  | 'lights over the floor'
  | 'aisle'
  | 'plant height'
  | 'first plant height'
  | 'last plant height'
  | 'tray height'
  | 'tray length'
  | 'tray width'
  | 'cable length'
  | 'growth'
  | 'hours'
  | 'on'
  | 'off'
  | 'mains'
  | 'breaker'
  | 'circuits'
  | 'spare power'
  | 'tariff'
  | 'budget'
  | 'latitude'
  | 'PPFD wanted'
  | 'DLI wanted'
  | 'lux'
  | 'readings'
  | 'meter'
  | 'lamp kind'
  | 'light power'
  | 'light output'
  | 'light beam'
  | 'light volts'
  | 'light efficacy'
  | 'lights'
  | 'old lamps'
  | 'old power'
  | 'benches'
  | 'shelves'
  | 'racks'
  | 'trays'
  | 'trays a week'
  | 'temperature'
  | 'crop'
  | 'stage'
  | 'other';

export interface Rule {
  readonly of: Quantity;
  /** Whose amount it is, by the noun beside it. */
  readonly whose?: readonly Owner[];
  /** Stands before the amount, with no number between. */
  readonly before?: string;
  /** Stands behind it, with no number and no stop between. */
  readonly after?: string;
  /** Stands somewhere in its sentence. */
  readonly near?: string;
  /** Stands nowhere in its sentence. */
  readonly unless?: string;
  readonly least?: number;
  readonly most?: number;
  readonly means: Meaning;
  /** Why it is to be asked, be it ever so plain. */
  readonly ask?: string;
  /** Two values that lie far apart: what a light can be fed with, and no mains. */
  readonly spread?: true;
  /** Two values, such as those between wires and to neutral. */
  readonly pair?: true;
}

const TOPS =
  '(?:above|over|from|off|to) (?:the )?(?:tops(?: of (?:the |my |our )?(?:leaves|plants|canopy|crop))?|top of (?:the |my |our )?(?:leaves|plants|canopy|crop)|leaf ?tops|leaves|leaf|plants?|canopy|crop|seedlings|foliage|heads)';
const OVER_TOPS = '(?:above|over) (?:the |my |our )?(?:plants?|crop|canopy|leaf ?tops|leaves|leaf|tops|foliage)';
const LIMIT = "can(?:no|')?t? |could|may |max|most|up to|highest|not? (?:go )?(?:higher|more)|limit|within|anywhere|allow|room (?:to|for)|no higher";
const OVERHEAD =
  'eaves?|headroom|head room|ceiling|roof|ridge|rafters?|gutters?|truss(?:es)?|trellis|beams? above|joists?|clearance|overhead|clear height|high(?:est)? point|hoops|crossbar|top bar';
const SHELF_TO_SHELF =
  '(?:between|from|underside|under|of|on|to|per) (?:(?:the|each|every|one|two|all|of|top|underside|next|bottom|and|those|them|our|my|any|to) ){0,5}(?:shel(?:f|ves)|tiers?|levels?|floors?|layers?|decks?|racks?)';
const APART = 'Said of shelves, it may be from board to board or the clear room between them.';
export const CIRCUIT = 'What else hangs on it must be known, and it is read on the breaker itself.';

const WIRES = 'Between which wires? A plug between one of them and neutral gives less.';
const FROM_BELOW = 'It is from the floor or the bench: the plants and their pots come off it.';
const WARMEST = 'It is the air at the lights that counts, where it is warmest.';

export const WHICH_SIDE = 'Which side is it?';

const BENCH: readonly Owner[] = ['bench', 'shelf', 'rack', 'none', 'room'];

// biome-ignore format: a line a rule
export const RULES: readonly Rule[] = [
  // Lengths over the plants and between shelves
  { of: 'length', before: `${OVER_TOPS}[^.;\\d\\n]{0,28}?(?:max(?:imum|\\.)?|at most|up to|no more than|not more than)`, means: 'highest mount' },
  { of: 'length', after: TOPS, near: `(?:${LIMIT})`, means: 'highest mount' },
  { of: 'length', after: TOPS, means: 'mount height' },
  { of: 'length', after: '(?:off|above|over|from) (?:the )?(?:floor|ground|soil|bench|table|bed|shelf|tray)', near: '(?:hang|hung|mounted|suspended|lights?|lamps?|leds?|fixtures?|tubes?|pulleys|ropes)', means: 'lights over the floor', ask: FROM_BELOW },
  { of: 'length', after: '(?:under|below|beneath) (?:the )?(?:shelf|tier|level)', near: '(?:bars?|lights?|lamps?|strips?|tubes?|fixtures?|leds?)', means: 'other' },
  { of: 'length', before: 'every|each', after: '(?:on|along|across|over|in) (?:the|my|our|a)', means: 'other' },
  { of: 'length', after: 'apart', means: 'gap', ask: APART },
  { of: 'length', after: '(?:in )?between(?= ?(?:[.,;)\\n]|$))', unless: 'aisle|path|walkway|gangway|passage', means: 'gap', ask: APART },
  { of: 'length', after: 'from (?:the|one|each|every) board (?:up )?to (?:the )?(?:\\p{L}+ ){0,4}(?:next|board)', means: 'gap' },
  { of: 'length', after: '(?:wide )?(?:aisles?|paths?|walkways?|gangways?|passages?|between (?:the )?(?:benches|tables|beds|rows))', means: 'aisle' },
  { of: 'length', whose: ['tray', 'pot'], after: '(?:high|deep|tall|in height)', means: 'tray height' },
  { of: 'length', after: '(?:(?:inside|in total|overall|each) )?(?:long|in length|length|of length|from end to end|end to end)', whose: BENCH, means: 'length' },
  { of: 'length', whose: ['shelf', 'rack'], after: 'wide', unless: 'long|deep|length', means: 'length', ask: WHICH_SIDE },
  { of: 'length', after: '(?:about |roughly )?wide', near: 'deep', whose: BENCH, means: 'length' },
  { of: 'length', after: '(?:(?:each) )?(?:wide|in width|width|of width|across|deep|in depth|depth|of depth|front to back)', whose: BENCH, means: 'width' },
  { of: 'length', before: 'spaced|spacing|pitch', means: 'gap', ask: APART },
  { of: 'length', whose: ['shelf'], before: 'every', means: 'gap', ask: APART },
  { of: 'length', after: `(?:of )?(?:clear|free|usable|open)?(?:ance| space| room| height| gap| air)? ?(?:in )?${SHELF_TO_SHELF}`, means: 'gap' },
  { of: 'length', after: '(?:of )?(?:clear|free|usable|open) (?:height|space|room|gap)', near: WORDS.shelf, means: 'gap' },
  { of: 'length', before: `(?:between|from) (?:(?:the|each|every|two|one|top|of|all|my|our) ){0,3}(?:${WORDS.shelf})(?: (?:to|and)(?: the)? (?:next|underside|one|other))?|(?:shelf|tier)[- ]to[- ](?:shelf|tier)|(?:clear|free) (?:height|gap|space|room)|gaps?|clearance`, near: WORDS.shelf, means: 'gap' },
  { of: 'length', after: '(?:gap|clear|free|clearance|clear height|headroom)(?: height| room| space)?', near: WORDS.shelf, means: 'gap' },
  { of: 'length', before: 'aisles?|paths?|walkways?|gangways?|passages?', means: 'aisle' },
  { of: 'length', after: '(?:over|above) (?:the )?(?:pots?|tubs?|soil|trays?)', means: 'headroom', ask: 'The plants, their pots and the light itself come off it.' },
  { of: 'length', before: OVERHEAD, means: 'headroom', ask: 'The plants, their pots and the light itself come off it.' },
  { of: 'length', after: `(?:${OVERHEAD}|over it|over them|above it|above them|above the (?:shelf|bench|table|bed)|over the (?:shelf|bench|table|bed)|of air|to spare above|up to the)`, means: 'headroom', ask: 'The plants, their pots and the light itself come off it.' },
  { of: 'length', whose: ['room'], after: 'high|tall|in height|ceiling|at the', means: 'headroom', ask: 'The plants, their pots and the light itself come off it.' },
  { of: 'length', before: 'can(?:not|.t)? go (?:past|higher than|above)|no higher than|highest (?:i|we|a light|the light|it) can (?:be )?(?:hang|hung|go|mount)', means: 'headroom', ask: 'From where is it measured: from the leaf tops, or from the bench?' },
  // Plants and trays
  { of: 'length', before: '(?:week|day|month) (?:one|1)', near: "grow|plants?|tall|they|tops?", means: 'first plant height' },
  { of: 'length', before: '(?:week|day|month) (?:\\d+|\\p{L}+)', near: "grow|plants?|tall|they|tops?", means: 'last plant height' },
  { of: 'length', before: '(?:go|goes|grow|grows|climb|climbs|rise|stretch|stretches|shoot|get) from [^.;\\n]{2,24} to', means: 'last plant height' },
  { of: 'length', before: '(?:go|goes|grow|grows|climb|climbs|rise|stretch|stretches|shoot|get) from', means: 'first plant height' },
  { of: 'length', after: '(?:tall |high )?(?:now|today|at the moment)', near: '(?:will|they)[^.;\\n]{0,20} (?:get|grow|reach|end|finish)', whose: ['plant', 'bench', 'shelf', 'tray', 'room', 'none'], means: 'first plant height' },
  { of: 'length', before: '(?:will|they)(?: \\p{L}+)? (?:get|grow|reach|end|finish)(?: up)?(?: to| at)?', near: 'they|plants?|crop|peppers?|tomato|now', whose: ['plant', 'bench', 'shelf', 'tray', 'room', 'none'], means: 'last plant height' },
  { of: 'length', before: '(?:start|begin|set out|planted|arrive|come in)(?:s|ing)?(?: out| off)?', near: 'grow|plants?|tall|end|finish|height', means: 'first plant height' },
  { of: 'length', before: '(?:end|finish|stop|top out|go up|grow|reach|get|getting)(?:s|ed|ing)?(?: up)?(?: to| at)?', after: '(?:tall|high)?', near: 'grow|plants?|tall|height|canopy|crop|pull|harvest', whose: ['plant', 'bench', 'shelf', 'tray', 'none'], means: 'last plant height' },
  { of: 'length', after: '(?:tall|high)', whose: ['plant'], means: 'plant height' },
  { of: 'length', before: 'plants?(?: height)?(?: (?:is|are|stand|get|grow|reach))?|canopy|crop', after: '(?:tall|high)', means: 'plant height' },
  { of: 'length', after: 'tall (?:plants?|at harvest|when)', means: 'plant height' },
  { of: 'length', whose: ['tray'], after: '(?:long|in length)', means: 'tray length' },
  { of: 'length', whose: ['tray'], after: '(?:wide|in width)', means: 'tray width' },
  { of: 'length', whose: ['tray'], before: 'length(?: of)?', means: 'tray length' },
  { of: 'length', whose: ['tray'], before: 'width(?: of)?', means: 'tray width' },
  { of: 'length', before: '(?:lights?|lamps?|fixtures?|leds?|fittings?)(?: (?:would|will|could|can|must|now))?(?: (?:stay|hang|are|sit|be))(?: (?:fixed|hung|mounted|up))?(?: (?:at|about))?', means: 'lights over the floor', ask: FROM_BELOW },
  { of: 'length', before: 'cable(?: run| length)?|wire run|run of cable', means: 'cable length', ask: 'It is the cable from the supply to the farthest light.' },
  { of: 'length', after: '(?:of )?cable', means: 'cable length', ask: 'It is the cable from the supply to the farthest light.' },
  { of: 'length', after: 'a (?:day|week)', means: 'growth' },
  // Lights, their sizes and other things nobody asks for
  { of: 'length', whose: ['lamp', 'plant', 'pot', 'other'], means: 'other' },
  { of: 'length', before: 'pots?|socket|outlet|plug|panel|board|window', after: '(?:away|from|pots?)', means: 'other' },
  { of: 'length', after: '(?:away|from the (?:socket|outlet|panel|board|window|wall|plug))', means: 'other' },
  { of: 'length', whose: ['none', 'plant'], after: '(?:high|tall|in height)', means: 'other' },
  // The bench
  { of: 'length', before: 'length(?: (?:of|is|:))?|long side|lengthwise|long', whose: BENCH, means: 'length' },
  { of: 'length', before: 'width(?: (?:of|is|:))?|depth|short side|deep|wide', whose: BENCH, means: 'width' },
  { of: 'length', whose: ['shelf', 'bench', 'rack'], after: '(?:high|tall|in height)', means: 'other' },
  { of: 'length', whose: ['bench', 'shelf', 'rack', 'none', 'room', 'tray'], means: 'length', ask: WHICH_SIDE },
  // Time
  { of: 'time', after: '(?:of )?(?:sun|daylight|natural|dark|darkness|off|away|drive|delivery|notice|a week|per week|work|a year|per year|ago|later)|days? delivery', means: 'other' },
  { of: 'time', before: 'within|deliver|answer|reply|call|off for|dark for|takes?|every|sun for|after', most: 96, means: 'other' },
  { of: 'time', after: '(?:[^a-z]{0,2})?(?:/ ?d|a day|per day|each day|daily|every day|day|days|of light|lights?|lit|on|photoperiod|of lighting|in winter|a night|lamp)', most: 24, means: 'hours' },
  { of: 'time', near: 'light|lamp|lit|run|burn|on for|photoperiod|leds?|day', most: 24, means: 'hours' },
  { of: 'time', least: 4, most: 24, means: 'hours' },
  // Electricity
  { of: 'voltage', most: 60, after: '(?:would|might|if (?:possible|you can))', means: 'light volts', ask: 'It is wished for; is it that of a light?' },
  { of: 'voltage', most: 60, means: 'light volts' },
  { of: 'voltage', whose: ['lamp'], near: 'dc|driver|bars?|input', after: 'dc|input', means: 'light volts' },
  { of: 'voltage', spread: true, means: 'other' },
  { of: 'voltage', whose: ['lamp'], near: '(?:µmol|umol|beam|lens|fittings? of|\\d ?w(?!\\p{L}))', unless: 'mains|socket|outlet|supply|building|circuit', means: 'light volts' },
  { of: 'voltage', before: '(?:µ|u)mol/[js]', means: 'light volts' },
  { of: 'voltage', pair: true, means: 'mains', ask: WIRES },
  { of: 'voltage', least: 301, most: 480, means: 'mains', ask: WIRES },
  { of: 'voltage', least: 90, most: 300, means: 'mains' },
  { of: 'current', means: 'breaker', ask: CIRCUIT },
  { of: 'power', after: '(?:is |are |of )?(?:power )?(?:spare|free|left|available|to spare|to use|for (?:the )?lights|for this|on that|supply|left over|(?:can|may|could) (?:still )?be (?:used|drawn|taken)|connection|capacity|in reserve|i can)', means: 'spare power', ask: CIRCUIT },
  { of: 'power', before: 'spare|free|left|available|only|have|supply(?: of)?|capacity|limit|allowed|most|headroom|up to|max(?:imum)?|use', least: 500, near: 'kw|kva|kilowatt', means: 'spare power', ask: CIRCUIT },
  { of: 'power', whose: ['lamp', 'bench', 'shelf', 'none', 'plant', 'room', 'tray'], most: 2000, means: 'light power' },
  { of: 'price', near: '(?:off[- ]?peak|peak|night|cheap rate|day rate|standing charge)', means: 'tariff', ask: 'There are several prices, by the hour: which one counts?' },
  { of: 'price', means: 'tariff' },
  { of: 'money', before: '(?:power|elec(?:tric(?:ity)?)?\\.?|energy|juice|leccy|tariff?|current|bill|rate|kwh|pay)(?: (?:is|costs?|runs?|me|us|here|at|about|comes?|price|now|of|to))*', most: 3, means: 'tariff' },
  { of: 'money', near: 'power|elec|leccy|energy|tariff?|kwh|pay', most: 2, means: 'tariff' },
  { of: 'money', unless: 'budget|spend|each|apiece|a piece|per (?:lamp|light|tray|plant|head|kilo)|worth|offer', most: 0.7, means: 'tariff', ask: 'Is it the price of a kilowatt-hour?' },
  { of: 'money', means: 'budget' },
  // Light
  { of: 'illuminance', near: '(?:people|others|someone|somebody|seen|supposed|should|need|want|enough is)', means: 'lux', ask: 'Was it read on a meter?' },
  { of: 'illuminance', means: 'lux' },
  { of: 'ppfd', near: 'measur|meter says|reads?|reading|i get|we get|getting|now it|currently', before: 'measured?|reads?|reading|says?|get|getting|got|show(?:s|ed)?', means: 'readings', ask: 'Is it what was measured, or what is wanted?' },
  { of: 'ppfd', after: '(?:[\\d.]+ ?)?(?:per joule|µmol/j|umol/j)', means: 'light output' },
  { of: 'ppfd', means: 'PPFD wanted' },
  { of: 'dli', means: 'DLI wanted' },
  { of: 'ppf', means: 'light output' },
  { of: 'efficacy', means: 'light efficacy' },
  { of: 'angle', after: '(?:of )?(?:lat|north|south|n(?!\\p{L})|s(?!\\p{L}))', most: 89, means: 'latitude' },
  { of: 'angle', before: 'lat(?:itude)?', most: 89, means: 'latitude' },
  { of: 'angle', after: '(?:beam|lens|optics?|angle|spread|wide)', means: 'light beam' },
  { of: 'angle', before: '(?:beam|lens|optics?|angle|spread)', means: 'light beam' },
  { of: 'angle', before: '(?:µ|u)mol/[js]', least: 8, most: 170, means: 'light beam' },
  { of: 'angle', whose: ['lamp'], least: 8, most: 170, means: 'light beam' },
  { of: 'angle', near: '(?:kept at|held at|heats?|gets? (?:hot|up)|by day|day ?time|at most|warmest|never over)', unless: 'night|outside|winter', most: 110, means: 'temperature' },
  { of: 'angle', near: '(?:temperature|warm|kept|heated?|cold|hot|night|air|room|summer|winter|gets? to)', most: 110, means: 'temperature', ask: WARMEST },
  { of: 'temperature', near: '(?:kept at|held at|heats?|gets? (?:hot|up)|by day|day ?time|at most|warmest|never over)', unless: 'night|outside|winter', means: 'temperature' },
  { of: 'temperature', means: 'temperature', ask: WARMEST },
  // Numbers without a unit
  { of: 'plain', before: 'lat(?:itude)?', most: 89, means: 'latitude' },
  { of: 'plain', after: '(?:deg )?(?:north|south|n(?!\\p{L})|s(?!\\p{L}))', least: 1, most: 89, means: 'latitude' },
  { of: 'plain', before: 'at', least: 100, most: 277, near: '(?:amps?|volts?|mains|socket|outlet|plug)', means: 'mains' },
  { of: 'plain', before: '(?:someone|somebody) else(?: told me| says?| said)?|others?(?: say| said)?', near: 'hours?|hrs?', least: 4, most: 24, means: 'hours', ask: 'The text says more than one.' },
  { of: 'plain', before: '(?:light|photoperiod|day)?hours?(?: of light| a day| per day)?(?: is| are|:)(?: about| around)?', least: 4, most: 24, means: 'hours' },
  { of: 'plain', after: 'on(?=[.,;)]| and| ?/|$)', near: 'veg|light|lamp|hours?|off|flower', least: 8, most: 24, means: 'hours' },
  { of: 'plain', before: '(?:meter|app|phone) (?:says|shows|reads|gives|said)|readings?(?: is| was| of|:)?', least: 1, means: 'readings', ask: 'In which unit was it read?' },
  { of: 'plain', before: 'ppfd(?: of)?', least: 20, most: 2500, means: 'PPFD wanted' },
  { of: 'plain', before: 'dli(?: of)?', least: 1, most: 65, means: 'DLI wanted' },
  { of: 'plain', before: 'pay(?:ing)?(?: about| around)?', least: 0.02, most: 0.9, means: 'tariff', ask: 'Is it the price of a kilowatt-hour, and in which money?' },
  { of: 'plain', before: 'ppf(?: of)?', least: 1, most: 20000, means: 'light output' },
];
