import type { SummaryFileView } from "../../engine/pooling/pooling-tasks.js";
import { ScrollBox } from "../scroll-box.js";

interface PoolFilesProps {
  readonly files: readonly SummaryFileView[];
  readonly isBusy: boolean;
  readonly onTakeOut: (place: number) => void;
}

/** So many digits of a fingerprint tell two apart. */
const digitsShown = 12;

/** File by file, the sites in it, and by what version and to what question it answers. */
export function PoolFiles({ files, isBusy, onTakeOut }: PoolFilesProps) {
  return (
    <ScrollBox name="The summaries that were brought">
      <table>
        <caption>The summaries that were brought</caption>
        <thead>
          <tr>
            <th scope="col">File</th>
            <th scope="col">Site</th>
            <th scope="col">Injuries</th>
            <th scope="col">People</th>
            <th scope="col">Question, by its fingerprint</th>
            <th scope="col">Toolkit</th>
            <th scope="col">
              <span class="unseen">Take out</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {files.flatMap(({ name, sites }, place) =>
            sites.map((site, i) => (
              <tr key={`${name} ${site.site}`}>
                <th scope="row">{i === 0 ? name : ""}</th>
                <td>{site.site}</td>
                <td>{site.injuries}</td>
                <td>{site.persons}</td>
                <td>
                  <code>{site.fingerprint.slice(0, digitsShown)}</code>
                </td>
                <td>{site.version}</td>
                <td>
                  {i === 0 ? (
                    <button
                      type="button"
                      class="quiet"
                      disabled={isBusy}
                      aria-label={`Take out ${name}`}
                      onClick={() => onTakeOut(place)}
                    >
                      Take out
                    </button>
                  ) : null}
                </td>
              </tr>
            )),
          )}
        </tbody>
      </table>
    </ScrollBox>
  );
}
