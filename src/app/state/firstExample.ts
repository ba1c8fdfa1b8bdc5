/** File name of the example that the page opens with. */
export const FIRST_EXAMPLE = 'long-arm-front.axlewalk.json';
