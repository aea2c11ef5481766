import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";

const places = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

/** Where a browser is installed, after an attempt to install one where that is allowed; null where there is none. */
export function findBrowser(): string | null {
  const found = () => places.find((place) => existsSync(place)) ?? null;
  const there = process.env.BROWSER_PATH ?? found();
  if (there !== null) return there;
  try {
    execFileSync("apt-get", ["update", "-qq"], { stdio: "ignore" });
    execFileSync("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium"], {
      stdio: "ignore",
      env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
    });
  } catch {
    return null;
  }
  return found();
}
