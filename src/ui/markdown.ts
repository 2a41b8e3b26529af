/** Markdown to safe markup. Raw HTML and images are off, and what comes out is sanitised all the same. */
import DOMPurify from 'dompurify';
import MarkdownIt from 'markdown-it';

const reader = new MarkdownIt({ html: false, linkify: false, typographer: false }).disable('image');

/** `{{Scenarios!B7}}` and `{{bench_length}}` stand for the live value of a cell. */
reader.inline.ruler.before('emphasis', 'live', (state, silent) => {
  if (!state.src.startsWith('{{', state.pos)) return false;
  const end = state.src.indexOf('}}', state.pos + 2);
  if (end < 0) return false;
  if (!silent) {
    const token = state.push('live', '', 0);
    token.content = state.src.slice(state.pos + 2, end).trim();
  }
  state.pos = end + 2;
  return true;
});
reader.renderer.rules.live = (tokens, i) => `<span data-live="${reader.utils.escapeHtml(tokens[i]?.content ?? '')}"></span>`;

// Headings in prose stand under the page's title.
for (const rule of ['heading_open', 'heading_close'] as const) {
  reader.renderer.rules[rule] = (tokens, i, options, _env, self) => {
    const token = tokens[i];
    if (token) token.tag = `h${Math.min(6, Math.max(3, Number(token.tag.slice(1)) + 1))}`;
    return self.renderToken(tokens, i, options);
  };
}

// A link leads out of the book, which stays open.
reader.renderer.rules.link_open = (tokens, i, options, _env, self) => {
  tokens[i]?.attrSet('target', '_blank');
  tokens[i]?.attrSet('rel', 'noopener noreferrer');
  return self.renderToken(tokens, i, options);
};

export function toMarkup(text: string): string {
  return DOMPurify.sanitize(reader.render(text), {
    FORBID_TAGS: ['style', 'img', 'form', 'input'],
    FORBID_ATTR: ['style'],
    ADD_ATTR: ['target'],
    ALLOW_DATA_ATTR: true,
  });
}
