/** Whether the picture is drawn by the processor alone: then less is drawn while it moves. */

const SOFTWARE = /swiftshader|llvmpipe|softpipe|software|basic render/i;

/** Asks a graphics context who draws. */
export function isSoftware(gl: WebGLRenderingContext | WebGL2RenderingContext): boolean {
  const info = gl.getExtension('WEBGL_debug_renderer_info');
  const name = info ? gl.getParameter(info.UNMASKED_RENDERER_WEBGL) : gl.getParameter(gl.RENDERER);
  return SOFTWARE.test(String(name));
}

/** Whether there is WebGL at all, and who draws; null where there is none. */
export function askGraphics(): { isSoftware: boolean } | null {
  const canvas = document.createElement('canvas');
  const gl = canvas.getContext('webgl2');
  if (!gl) return null;
  const answer = { isSoftware: isSoftware(gl) };
  gl.getExtension('WEBGL_lose_context')?.loseContext();
  return answer;
}
