/** What elements ask for, and who sees to it. A wish that the page has forgotten does not compile. */
import type { Wishes } from '../parts/index.ts';
import type { Shell } from './shell.ts';

/** Some are heard on their way by the element they are meant for. */
type HeardBelow = 'found' | 'text-ended' | 'draft' | 'keep' | 'leave';
type Heard = { readonly [K in Exclude<keyof Wishes, HeardBelow>]: (detail: Wishes[K]) => unknown };

const heard = (page: Shell): Heard => {
  const { doing, entering, telling, whereabouts } = page;
  return {
    choose: (wish) => whereabouts.choose(wish),
    type: (wish) => doing.type(wish),
    answer: (wish) => doing.answer(wish),
    paste: (wish) => doing.paste(wish),
    clear: () => doing.clear(),
    menu: ({ what }) => doing.openMenu(what),
    tell: ({ text }) => telling.tell(text, true),
    page: (wish) => whereabouts.show(wish.page, wish.word),
    letters: ({ letters }) => page.cite(letters),
    change: (wish) => doing.change(wish),
    'take-back': () => doing.perform({ do: 'undo' }),
    text: (text) => doing.perform({ do: 'write text', text }),
    'in-hand': ({ block }) => {
      whereabouts.piece = block;
    },
    'piece-focus': ({ block }) => doing.perform({ do: 'take up piece', block }),
    open: (wish) => entering.open(wish),
    remove: (wish) => entering.remove(wish),
    write: (wish) => page.write(wish),
    question: ({ place }) => doing.perform({ do: 'open slip', slip: 'brief', asked: place }),
  };
};

/** Hears them from everything that stands in the page, slips too. */
export function hearWishes(page: Shell): void {
  for (const [name, see] of Object.entries(heard(page))) page.addEventListener(`ob-${name}`, (event) => void see((event as CustomEvent).detail));
}
