/** A picture on the page: when it is drawn, and the fields it is drawn from. What is drawn is in src/pictures. */
import './picture.ts';
