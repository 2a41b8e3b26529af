/**
 * What an open book is shown with, and what saves it and sends it out: that must be here when whatever serves the page is gone. The first page does
 * without: it is fetched beside it, and is there before the first book is opened.
 */
import './contents.ts';
import '../blocks/index.ts';
import '../styles/reshape.css';
import '../styles/print.css';
import '../margin/index.ts';

export { Saving } from './saving.ts';
export { sendOut } from './sending.ts';
