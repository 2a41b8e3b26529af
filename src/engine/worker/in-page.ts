/** The event by which a page without workers gives a port to what it loaded in place of one. */
export const IN_PAGE = 'overbench engine';
