/** Words by which people look for a line of Crops that is called otherwise: kinds of plants by the plants, and plants by their other names. All from memory. */
const ALSO: readonly (readonly [called: RegExp, words: string])[] = [
  [
    /^vegetable seedlings|^microgreens and seedlings/i,
    'tomato pepper cucumber aubergine eggplant cabbage broccoli cauliflower leek onion courgette squash melon young plants transplants plugs',
  ],
  [/^tomato cucumber pepper/i, 'seedlings young plants plugs vegetable'],
  [/^fruiting vegetables/i, 'tomato pepper cucumber aubergine eggplant courgette bean melon'],
  [/^leafy greens and herbs/i, 'lettuce spinach rocket arugula kale chard mustard pak choi parsley coriander mint basil dill chives salad'],
  [/^microgreens/i, 'cress radish broccoli mustard pea shoots sunflower shoots'],
  [/lettuce/i, 'salad leafy greens'],
  [/^spinach|^rocket|^kale/i, 'salad leafy greens'],
  [/^rocket/i, 'arugula rucola'],
  [/^sweet basil/i, 'herbs'],
  [/^sweet pepper/i, 'capsicum bell pepper paprika'],
  [/^bedding plants|^annual cuttings/i, 'petunia pansy begonia marigold impatiens geranium verbena flowers plugs'],
  [/^petunia geranium/i, 'bedding annual cuttings flowers'],
  [/^pelargonium/i, 'geranium'],
  [/^houseplants|^shade plants/i, 'ficus philodendron monstera fern ivy palm indoor foliage'],
  [/^african violet/i, 'saintpaulia houseplant flowers'],
  [/^moth orchid/i, 'phalaenopsis houseplant flowers'],
  [/^chrysanthemum/i, 'mums cut flowers pot plant'],
  [/^poinsettia/i, 'pot plant christmas'],
];

/** What a line may be looked for by, besides what it says. */
export const alsoCalled = (line: string): string => ALSO.flatMap(([called, words]) => (called.test(line) ? [words] : [])).join(' ');
