/** Markdown to safe markup. Raw HTML and images are off, and what comes out is sanitised all the same. */
import DOMPurify from 'dompurify';
import { Marked, type Tokens } from 'marked';
import { ownAddress } from '../../book/other-writing.ts';
import { escaped } from '../../escaped.ts';

/** A link leads out of the book, which stays open. One that would run a script is none. */
function linked(href: string, title: string | null | undefined, words: string): string {
  if (!/^(?:https?|mailto):/i.test(href)) return words;
  return `<a href="${escaped(href)}"${title ? ` title="${escaped(title)}"` : ''} target="_blank" rel="noopener noreferrer">${words}</a>`;
}

const reader = new Marked({
  gfm: true,
  // A token that is not made leaves its letters as text.
  tokenizer: {
    html: () => undefined,
    tag: () => undefined,
    url: () => undefined,
  },
  renderer: {
    // Headings in prose stand under the page's title.
    heading({ tokens, depth }: Tokens.Heading): string {
      const level = Math.min(6, Math.max(3, depth + 1));
      return `<h${level}>${this.parser.parseInline(tokens)}</h${level}>\n`;
    },
    link({ href, title, tokens }: Tokens.Link): string {
      return linked(href, title, this.parser.parseInline(tokens));
    },
    // What was to be a picture from elsewhere is a link to it.
    image: ({ href, title, text }: Tokens.Image) => linked(href, title, escaped(text)),
  },
  extensions: [
    {
      // `{{Scenarios.B7}}` and `{{bench_length}}` stand for the live value of a cell.
      name: 'live',
      level: 'inline',
      start: (text: string) => text.indexOf('{{'),
      tokenizer(text: string) {
        const found = /^\{\{([^}]*)\}\}/.exec(text);
        return found ? { type: 'live', raw: found[0], text: ownAddress((found[1] ?? '').trim()) } : undefined;
      },
      renderer: (token) => `<span data-live="${escaped(String(token.text))}"></span>`,
    },
  ],
});

export function toMarkup(text: string): string {
  return DOMPurify.sanitize(reader.parse(text, { async: false }), {
    FORBID_TAGS: ['style', 'img', 'form', 'input'],
    FORBID_ATTR: ['style'],
    ADD_ATTR: ['target'],
    ALLOW_DATA_ATTR: true,
  });
}
