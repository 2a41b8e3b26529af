/** What an open book is shown with. The first page does without: it is fetched beside it, and is there before the first book is opened. */
import './contents.ts';
import './page-view.ts';
import './picture.ts';
import './prose.ts';
import './styles/reshape.css';
import './styles/print.css';
import './table.ts';
import './working.ts';
