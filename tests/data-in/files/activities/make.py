"""Makes the recordings beside this file. Run as `python3 make.py FIT`, with the name that `gpsbabel -?` (version 1.8) lists for
the FIT format: it writes converted-from-positions.fit. The others are written here, the FIT ones after the public description
of the format. Everything in them is invented: a step test of 90 s stages from 100 W on, heart rate rising with it, and the
oddities that the names tell."""

import datetime
import struct
import subprocess
import sys

START = datetime.datetime(2026, 3, 1, 9, 0, 0, tzinfo=datetime.timezone.utc)
EPOCH = datetime.datetime(1989, 12, 31, tzinfo=datetime.timezone.utc)
STAGE = 90
POWERS = [100, 130, 160, 190, 220]


def stamp(second):
    return (START + datetime.timedelta(seconds=second)).strftime("%Y-%m-%dT%H:%M:%SZ")


def samples(seconds=range(STAGE * len(POWERS))):
    """(second, power, heart rate, cadence, speed in m/s) of the test; power two watts about its level, heart rate lags."""
    rate = 100.0
    found = []
    for t in range(STAGE * len(POWERS)):
        level = POWERS[t // STAGE]
        rate += ((100 + 0.4 * (level - 60)) - rate) / 25
        if t in seconds:
            found.append((t, level + (2 if t % 2 else -2), round(rate), 88, 5 + level / 100))
    return found


def tcx(name, points, laps=None, pauses=(), sport="Biking", extension=True):
    laps = laps or [(0, STAGE * len(POWERS))]
    text = ['<?xml version="1.0" encoding="UTF-8"?>', '<TrainingCenterDatabase xmlns="t" xmlns:e="e"><Activities>', f'<Activity Sport="{sport}"><Id>{stamp(0)}</Id>']
    for start, end in laps:
        text.append(f'<Lap StartTime="{stamp(start)}"><TotalTimeSeconds>{end - start}</TotalTimeSeconds><Track>')
        for t, power, rate, cadence, speed in points:
            if not start <= t < end:
                continue
            if t in pauses:
                text.append("</Track><Track>")
            more = f"<Extensions><e:TPX><e:Speed>{speed}</e:Speed><e:Watts>{power}</e:Watts></e:TPX></Extensions>" if extension else f"<DistanceMeters>{speed * t:.1f}</DistanceMeters>"
            pulse = f"<HeartRateBpm><Value>{rate}</Value></HeartRateBpm>" if rate else ""
            text.append(f"<Trackpoint><Time>{stamp(t)}</Time>{pulse}<Cadence>{cadence}</Cadence>{more}</Trackpoint>")
        text.append("</Track></Lap>")
    text.append("</Activity></Activities></TrainingCenterDatabase>")
    write(name, "\n".join(text))


def gpx(name, points, segments=(), encoding="UTF-8", kmh=None):
    """Positions along a meridian; a metre is 1/111195 of a degree on the mean sphere."""
    text = [f'<?xml version="1.0" encoding="{encoding}"?>', '<gpx version="1.1" creator="invented" xmlns="g" xmlns:x="x"><trk><name>Ärger &amp; Spaß</name><type>running</type><trkseg>']
    for t, power, rate, cadence, speed in points:
        if t in segments:
            text.append("</trkseg><trkseg>")
        metres = (kmh / 3.6) * t
        latitude = 50 + metres / 111195.0797
        text.append(f'<trkpt lat="{latitude:.8f}" lon="8.0"><ele>100</ele><time>{stamp(t)}</time><extensions><x:TrackPointExtension><x:hr>{rate}</x:hr><x:cad>{cadence}</x:cad></x:TrackPointExtension></extensions></trkpt>')
    text.append("</trkseg></trk></gpx>")
    write(name, "\n".join(text), encoding)


def write(name, text, encoding="UTF-8"):
    with open(name, "w", encoding=encoding, newline="\n") as file:
        file.write(text)


CRC = [0, 0xCC01, 0xD801, 0x1400, 0xF001, 0x3C00, 0x2800, 0xE401, 0xA001, 0x6C00, 0x7800, 0xB401, 0x5000, 0x9C01, 0x8801, 0x4400]


def checksum(data):
    value = 0
    for byte in data:
        value = (value >> 4) ^ CRC[value & 15] ^ CRC[byte & 15]
        value = (value >> 4) ^ CRC[value & 15] ^ CRC[byte >> 4]
    return value


SIZES = {0: "B", 1: "b", 2: "B", 0x83: "h", 0x84: "H", 0x85: "i", 0x86: "I"}


class Fit:
    def __init__(self, big=False):
        self.data = b""
        self.order = ">" if big else "<"

    def define(self, local, message, fields, developer=()):
        self.fields = getattr(self, "fields", {})
        self.fields[local] = fields
        self.data += struct.pack("BBB", 0x40 | local | (0x20 if developer else 0), 0, 1 if self.order == ">" else 0)
        self.data += struct.pack(self.order + "H", message) + bytes([len(fields)])
        for number, base in fields:
            self.data += bytes([number, struct.calcsize(SIZES[base]), base])
        if developer:
            self.data += bytes([len(developer)]) + b"".join(bytes(field) for field in developer)

    def add(self, local, values, extra=b""):
        self.data += bytes([local]) + self.packed(local, values) + extra

    def compressed(self, local, offset, values):
        self.data += bytes([0x80 | (local << 5) | (offset & 31)]) + self.packed(local, values)

    def packed(self, local, values):
        return b"".join(struct.pack(self.order + SIZES[base], value) for (_, base), value in zip(self.fields[local], values))

    def bytes(self, closed=True):
        header = struct.pack("<BBHI4s", 14, 0x20, 2100, len(self.data) if closed else 0, b".FIT")
        header += struct.pack("<H", checksum(header))
        return header + self.data + (struct.pack("<H", checksum(header + self.data)) if closed else b"")


def seconds_since_epoch(second):
    return int((START - EPOCH).total_seconds()) + second


RECORD = [(253, 0x86), (7, 0x84), (3, 2), (4, 2), (6, 0x84)]
LAP = [(253, 0x86), (2, 0x86), (7, 0x86)]
EVENT = [(253, 0x86), (0, 0), (1, 0)]


def fit_records(fit, points):
    fit.define(0, 20, RECORD)
    for t, power, rate, cadence, speed in points:
        fit.add(0, [seconds_since_epoch(t), power, rate, cadence, round(1000 * speed)])


def fit_laps(fit, laps):
    fit.define(1, 19, LAP)
    for start, end in laps:
        fit.add(1, [seconds_since_epoch(end), seconds_since_epoch(start), 1000 * (end - start)])


def save(name, data):
    with open(name, "wb") as file:
        file.write(data)


def stages():
    return [(i * STAGE, (i + 1) * STAGE) for i in range(len(POWERS))]


def fits():
    plain = Fit()
    fit_records(plain, samples())
    fit_laps(plain, stages())
    plain.define(2, 18, [(5, 0)])
    plain.add(2, [2])
    save("laps.fit", plain.bytes())
    save("cut-off.fit", plain.bytes()[:3000])
    save("never-closed.fit", plain.bytes(closed=False))

    big = Fit(big=True)
    fit_records(big, samples())
    save("big-endian-no-laps.fit", big.bytes())

    short = Fit()
    short.define(3, 20, RECORD)
    short.add(3, [seconds_since_epoch(0), 98, 100, 88, 6000])
    short.define(0, 20, RECORD[1:])
    for t, power, rate, cadence, speed in samples()[1:]:
        short.compressed(0, seconds_since_epoch(t), [power, rate, cadence, round(1000 * speed)])
    save("compressed-times.fit", short.bytes())

    extra = Fit()
    extra.define(0, 20, [*RECORD, (0, 0x85), (1, 0x85), (73, 0x86)], developer=[(0, 4, 0), (1, 2, 0)])
    for t, power, rate, cadence, speed in samples():
        # Missing heart rate at first, an invalid plain speed beside the enhanced one, no position.
        extra.add(0, [seconds_since_epoch(t), power, 255 if t < 10 else rate, 255, 65535, 0x7FFFFFFF, 0x7FFFFFFF, round(1000 * speed)], struct.pack("<fH", 36.6, 7))
    save("developer-fields.fit", extra.bytes())

    paused = Fit()
    paused.define(2, 21, EVENT)
    paused.add(2, [seconds_since_epoch(0), 0, 0])
    fit_records(paused, samples(range(0, 180)))
    paused.add(2, [seconds_since_epoch(180), 0, 4])
    paused.add(2, [seconds_since_epoch(300), 0, 0])
    fit_records(paused, [(t + 120, *rest) for t, *rest in samples(range(180, 450))])
    save("pause.fit", paused.bytes())

    first, second = Fit(), Fit()
    fit_records(first, samples(range(0, 200)))
    fit_records(second, samples(range(200, 450)))
    save("two-files-joined.fit", first.bytes() + second.bytes())


def odd(points):
    """Lost signals, spikes and rolling zeros in the last minute of stages 2, 3 and 4."""
    changed = []
    for t, power, rate, cadence, speed in points:
        if 150 <= t < 160:
            power = 0
        if 220 <= t < 223:
            power = 1900
        if 300 <= t < 306:
            power, cadence = 0, 0
        if t == 100:
            power = 65000
        changed.append((t, power, rate, cadence, speed))
    return changed


def main():
    tcx("laps.tcx", samples(), stages())
    tcx("zeros-spikes-lost-signal.tcx", odd(samples()), stages())
    tcx("smart-recording.tcx", [s for s in samples() if s[0] % STAGE in (0, 7, 14, 23, 32, 41, 50, 59, 66, 75, 82, 89)], stages())
    tcx("gap.tcx", [s for s in samples() if not 110 <= s[0] < 170], stages())
    tcx("pause.tcx", [(t + (120 if t >= 180 else 0), *rest) for t, *rest in samples()], pauses=[300], laps=[(0, 570)])
    tcx("distance-only-run.tcx", [(t, 0, rate, cadence, 3.0) for t, _, rate, cadence, _ in samples()], sport="Running", extension=False)
    points = samples()
    tcx("out-of-order.tcx", [*points[200:], *points[:200], points[10]])
    gpx("positions.gpx", samples(range(0, 300)), kmh=12)
    gpx("segments-latin1.gpx", [(t + (60 if t >= 150 else 0), *rest) for t, *rest in samples(range(0, 300))], segments=[210], encoding="ISO-8859-1", kmh=12)
    fits()
    subprocess.run(["gpsbabel", "-i", "gpx", "-f", "positions.gpx", "-o", sys.argv[1], "-F", "converted-from-positions.fit"], check=True)


main()
