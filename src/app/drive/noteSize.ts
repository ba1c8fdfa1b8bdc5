/** Size of notes on canvases, px: larger where they are read at arm's length. */
export const noteSize = (): number => (window.matchMedia('(pointer: coarse)').matches ? 14.5 : 13);
