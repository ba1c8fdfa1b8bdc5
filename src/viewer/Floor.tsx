/** The shop's floor: shadow and grid, fading into the page. */
import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { ShadowMaterial } from 'three';
import { type Theme, TONES } from './looks.ts';
import type { SurroundingsProps } from './Surroundings.tsx';

const SHADE: Readonly<Record<Theme, number>> = { light: 0.17, dark: 0.46 };

export function Floor({ theme, middle, floor, unit, isFine, hasShadow }: SurroundingsProps) {
  const uniforms = useMemo(
    () => ({
      floorColor: { value: [0, 0, 0] },
      lineColor: { value: [0, 0, 0] },
      gridStep: { value: 12 },
      fineStep: { value: 0 },
      middleX: { value: 0 },
      shade: { value: 0.16 },
      body: { value: 0.5 },
    }),
    [],
  );
  const material = useMemo(() => floorMaterial(uniforms), [uniforms]);
  const invalidate = useThree(state => state.invalidate);
  useEffect(() => {
    uniforms.floorColor.value = channels(TONES[theme].floor);
    uniforms.lineColor.value = channels(TONES[theme].line);
    // no shadow while it moves: the same program, without looking one up
    uniforms.shade.value = hasShadow ? SHADE[theme] : 0;
    uniforms.body.value = theme === 'light' ? 0.85 : 0.7;
    uniforms.gridStep.value = unit === 'in' ? 12 : 500 / 25.4;
    uniforms.fineStep.value = isFine ? (unit === 'in' ? 3 : 100 / 25.4) : 0;
    uniforms.middleX.value = middle;
    invalidate();
  }, [uniforms, theme, unit, isFine, middle, hasShadow, invalidate]);
  useEffect(() => () => material.dispose(), [material]);
  return (
    <mesh
      name="floor"
      position={[middle, 0, floor]}
      receiveShadow
      material={material}
      renderOrder={-2}
    >
      <planeGeometry args={[420, 420]} />
    </mesh>
  );
}

/** sRGB shares of a color, as they are to be written. */
function channels(hex: string): [number, number, number] {
  const n = Number.parseInt(hex.slice(1), 16);
  return [((n >> 16) & 255) / 255, ((n >> 8) & 255) / 255, (n & 255) / 255];
}

function floorMaterial(uniforms: Record<string, { value: unknown }>): ShadowMaterial {
  const material = new ShadowMaterial({ transparent: true, depthWrite: false, toneMapped: false });
  material.onBeforeCompile = shader => {
    Object.assign(shader.uniforms, uniforms);
    shader.vertexShader = shader.vertexShader
      .replace('#include <common>', '#include <common>\nvarying vec2 vOnFloor;')
      .replace(
        '#include <begin_vertex>',
        '#include <begin_vertex>\nvOnFloor = (modelMatrix * vec4(position, 1.0)).xy;',
      );
    shader.fragmentShader = shader.fragmentShader
      .replace(
        '#include <common>',
        `#include <common>
varying vec2 vOnFloor;
uniform vec3 floorColor;
uniform vec3 lineColor;
uniform float gridStep;
uniform float fineStep;
uniform float middleX;
uniform float shade;
uniform float body;
float gridLine(vec2 at, float width) {
  vec2 cell = abs(fract(at - 0.5) - 0.5) / fwidth(at);
  return 1.0 - clamp(min(cell.x, cell.y) - width, 0.0, 1.0);
}`,
      )
      .replace(
        /gl_FragColor = vec4\([^;]*;/,
        'gl_FragColor = onFloor(shade > 0.0 ? getShadowMask() : 1.0);',
      )
      .replace(
        'void main() {',
        `vec4 onFloor(float lit) {
  vec2 at = vOnFloor - vec2(middleX, 0.0);
  float away = length(at * vec2(0.86, 1.0));
  float fade = 1.0 - smoothstep(46.0, 150.0, away);
  fade *= fade;
  float line = 0.85 * gridLine(at / gridStep, 0.2);
  if (fineStep > 0.0) line = max(line, 0.45 * gridLine(at / fineStep, 0.0));
  vec3 color = mix(floorColor, lineColor, line);
  float dark = shade * (1.0 - lit);
  color = mix(color, vec3(0.02, 0.03, 0.035), dark);
  return vec4(color, fade * max(max(body, dark), line));
}
void main() {`,
      )
      .replace('#include <colorspace_fragment>', '');
  };
  return material;
}
