/** A place on the earth, degrees. */
export type Place = { readonly latitudeDeg: number; readonly longitudeDeg: number };

/** Mean radius, km. Source: IUGG, R1. */
const earthRadiusKm = 6371.0088;

/** The shortest way over the earth between two places, km. Source: the haversine formula. */
export function greatCircleKm(from: Place, to: Place): number {
  const radians = (degrees: number) => (degrees * Math.PI) / 180;
  const [north, south] = [radians(from.latitudeDeg), radians(to.latitudeDeg)];
  const across = radians(to.longitudeDeg - from.longitudeDeg);
  const squared =
    Math.sin((south - north) / 2) ** 2 + Math.cos(north) * Math.cos(south) * Math.sin(across / 2) ** 2;
  return 2 * earthRadiusKm * Math.asin(Math.min(1, Math.sqrt(squared)));
}
