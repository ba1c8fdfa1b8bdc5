/** Keeps the page itself in the browser: it opens without a network from then on. */
export async function keepPage(): Promise<void> {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  try {
    await navigator.serviceWorker.register(`${import.meta.env.BASE_URL}sw.js`);
  } catch {
    // storage is refused: the page comes from its server each time
  }
}
