/** Crops and their stages, lamps, as people call them. One line a kind; the first crop of a line that the book's list has with the stage that is said counts. */

export interface Called {
  /** Whole words, plural or not. */
  readonly said: string;
  /** As the list of crops has it, likeliest first. */
  readonly crops: readonly string[];
  /** The words name just this line of the list, or one of its kind: parsley is a herb. Otherwise it is near, and is asked. */
  readonly exact?: true;
}

const GREENS = ['leafy greens and herbs'];
const SEEDLINGS = 'vegetable seedlings';

/** Longer names first: `iceberg lettuce` is no lettuce of any kind. */
// biome-ignore format: a line a kind
export const CROPS: readonly Called[] = [
  { said: 'iceberg(?: lettuces?)?', crops: ['iceberg lettuce'], exact: true },
  { said: '(?:butter ?head|romaine|cos|batavia|oak ?leaf|lollo \\w+|red|green|head|baby)? ?lettuces?|romaine|butterhead|little gems?', crops: ['lettuce'], exact: true },
  { said: 'salad(?: leaves| greens| mix)?|mesclun|(?:baby leaf )?(?:mustard|kale mix)(?= leaves)|baby leaf|baby leaves|leafy greens', crops: GREENS, exact: true },
  { said: 'leafy greens and herbs', crops: GREENS, exact: true },
  { said: '(?:sweet |thai |genovese |purple |lemon |holy |greek )?basils?', crops: ['sweet basil'], exact: true },
  { said: 'micro ?greens? brassica|brassica micro ?greens?', crops: ['microgreens brassica'], exact: true },
  { said: 'microgreens mixed|mixed micro ?greens?', crops: ['microgreens mixed'], exact: true },
  { said: 'microgreens and seedlings', crops: ['microgreens and seedlings'], exact: true },
  { said: 'micro(?:-| )?greens?|micros(?! of)|micro ?herbs?|(?:pea|broccoli|sunflower|radish|mustard) (?:shoots?|micros?)|pea ?shoots?|cress|wheat ?grass|shoots(?! up)', crops: ['microgreens and seedlings', 'microgreens mixed'], exact: true },
  { said: 'tomato cucumber pepper', crops: ['tomato cucumber pepper'], exact: true },
  { said: '(?:dwarf |cherry |beef |plum |vine )?tomato(?:e?s)?|toms', crops: ['tomato', 'tomato cucumber pepper', SEEDLINGS], exact: true },
  { said: 'mini-? ?cucumbers?', crops: ['mini-cucumber'], exact: true },
  { said: 'cucumbers?|cukes?', crops: ['cucumber', 'mini-cucumber', 'tomato cucumber pepper', SEEDLINGS], exact: true },
  { said: 'chill?i(?:e?s)?(?: peppers?)?|(?:hot|chill?i|chile) peppers?|chiles?|jalape(?:n|ñ)os?|habaneros?', crops: ['sweet pepper', 'tomato cucumber pepper', SEEDLINGS] },
  { said: '(?:sweet |bell |red |green )?peppers?|capsicums?|paprikas?', crops: ['sweet pepper', 'tomato cucumber pepper', SEEDLINGS], exact: true },
  { said: 'strawberr(?:y|ies)', crops: ['strawberry'], exact: true },
  { said: 'spinach', crops: ['spinach'], exact: true },
  { said: 'rocket|arugula|rucola|roquette', crops: ['rocket'], exact: true },
  { said: '(?:curly |baby |tuscan )?kales?|cavolo nero', crops: ['kale'], exact: true },
  { said: 'pelargoniums?', crops: ['pelargonium'], exact: true },
  { said: 'petunia geranium new guinea impatiens', crops: ['petunia geranium New Guinea impatiens'], exact: true },
  { said: 'geraniums?|petunias?|(?:new guinea )?impatiens', crops: ['petunia geranium New Guinea impatiens', 'bedding plants', 'pelargonium'] },
  { said: 'annual cuttings', crops: ['annual cuttings'], exact: true },
  { said: 'bedding(?: plants?)?|pansies|violas?|marigolds?|snapdragons?|antirrhinums?', crops: ['bedding plants'], exact: true },
  { said: 'african violets?|saintpaulias?', crops: ['African violet'], exact: true },
  { said: 'phalaenopsis|moth orchids?|phals?', crops: ['moth orchid'], exact: true },
  { said: 'orchids?|cymbidiums?|dendrobiums?|cattleyas?', crops: ['moth orchid'] },
  { said: '(?:pot )?chrysanthemums?|(?:pot )?mums', crops: ['chrysanthemum'], exact: true },
  { said: 'poinsettias?', crops: ['poinsettia'], exact: true },
  { said: '(?:miniature |cut |pot )?roses?', crops: ['rose'], exact: true },
  { said: 'tecomas?', crops: ['tecoma'], exact: true },
  { said: 'ornamentals?', crops: ['ornamentals'], exact: true },
  { said: 'house ?plants?', crops: ['houseplants'], exact: true },
  { said: 'ferns?|aroids?|monsteras?|philodendrons?|pothos|calatheas?', crops: ['houseplants', 'shade plants'] },
  { said: 'succulents?|cact(?:us|i)', crops: ['full-sun plants', 'houseplants'] },
  { said: 'part-shade plants', crops: ['part-shade plants'], exact: true },
  { said: 'shade plants', crops: ['shade plants'], exact: true },
  { said: 'full-sun plants', crops: ['full-sun plants'], exact: true },
  { said: 'fruiting vegetables', crops: ['fruiting vegetables'], exact: true },
  { said: 'au?bergines?|eggplants?', crops: ['fruiting vegetables', SEEDLINGS] },
  { said: 'vegetable seedlings', crops: [SEEDLINGS], exact: true },
  { said: 'onions?|leeks?|cabbages?|broccoli(?! shoots?)|cauliflowers?|celery|squash|courgettes?|zucchinis?|vegetable (?:starts|plants|transplants)|veg(?:gie)? (?:starts|seedlings|plugs)', crops: [SEEDLINGS, ...GREENS] },
  { said: 'pak ?choi|bok ?choy|(?:swiss |rainbow )?chards?|mustard greens|mustards?|mizunas?|tatsoi|endives?|watercress|sorrel|collards?', crops: GREENS, exact: true },
  { said: 'herbs?|parsley|chives?|cilantro|coriander|mint|dill|thyme|sage|oregano|rosemary|tarragon|marjoram|shiso|perilla|lovage|chervil|savory|lemon balm|lemon ?grass', crops: GREENS, exact: true },
];

/** What is said of a plant's age, and what such stages are called in the list of crops. */
export const STAGES: readonly (readonly [said: string, called: RegExp])[] = [
  [
    'seedlings?|from seed|starts|starters|plugs|plug (?:trays?|plants?|house)|young plants?|transplants?|starting|sow(?:n|ing)?|young (?=\\p{L})',
    /seedling|transplant|plug|young/iu,
  ],
  ['cuttings?|rooting|root(?:ed)?', /cutting|rooting|propagation/iu],
  ['propagation(?! (?:house|room|bench|area|unit|table|shelf))|propagating', /propagation|rooting|plug|transplant/iu],
  ['in fruit|fruiting|fruits?|cropping', /fruiting|production/iu],
  ['in (?:bloom|flower)|flowering|blooming|flowers?', /flower/iu],
  ['germinat(?:ion|ing|e)', /germination/iu],
  ['stock plants?|overwinter(?:ing|ed)?', /stock/iu],
];

/** Kinds of lamp, as the lists of the templates call them. Where several are meant the first is put forward and asked. */
export const LAMPS: readonly (readonly [said: string, kinds: readonly string[], exact: boolean])[] = [
  ['high[- ]pressure sodiums?|hps|sodiums?(?: (?:lamps?|lights?|vapou?r))?|son-?t(?: agro)?', ['high-pressure sodium'], true],
  ['metal[- ]halides?|ceramic metal halides?|cmh|hqi', ['metal halide'], true],
  ['cool[- ]white fluorescents?(?: tubes?)?', ['cool white fluorescent'], true],
  ['(?:plant|grow)(?:[- ]growth|th)?[- ]fluorescents?', ['plant-growth fluorescent'], true],
  ['fluorescents?(?: tubes?)?|fluoros?|tube lamps?|strip ?lights|shop ?lights|t5s?(?: ho)?|t8s?|t12s?', ['cool white fluorescent'], false],
  ['warm[- ]white (?:leds?|diodes?)', ['warm white LED'], true],
  ['neutral[- ]white (?:leds?|diodes?)', ['neutral white LED'], true],
  ['cool[- ]white (?:leds?|diodes?)', ['cool white LED'], true],
  ['white leds?|leds?(?: (?:lights?|lamps?|tubes?|bars?|strips?))?,? white|white led tubes?', ['neutral white LED'], false],
  ['incandescents?|filament (?:bulbs?|lamps?)|halogens?', ['incandescent'], true],
];
