"""Makes those of the files beside this one that an editor does not write as they are meant. Run as `python3 make.py`."""

TABLE = "power (W);lactate;HR\n100;1,0;110\n150;1,4;131\n200;3,1;155\n"


def save(name, text, encoding="utf-8"):
    with open(name, "wb") as file:
        file.write(text.encode(encoding))


save("bars.txt", "| power (W) | lactate | HR |\n|---|---|---|\n| 100 | 1.0 | 110 |\n| 150 | 1.4 | 131 |\n| 200 | 3.1 | 155 |\n")
save("set-with-spaces.txt", "power (W)   heart rate   lactate\n  100        110          1,0\n  150         -           1,4\n  200        155          3,1\n")
save("latin-1.csv", "Pr\u00fcfung drinnen, 20 \u00b0C\n" + TABLE, "latin-1")
save("utf-16-le.csv", "\ufeff" + TABLE.replace("\n", "\r\n"), "utf-16-le")
save("utf-16-be.csv", "\ufeff\u03a9 \u2013 \u00e9\n" + TABLE, "utf-16-be")
save("utf-16-without-mark.csv", TABLE, "utf-16-le")
save("quoted-delimiters.csv", '"power (W)","remark, if any","HR","lactate"\n100,"easy, ""very""",110,1.0\n150,";",131,1.4\n200,"a,b,c",155,3.1\n')
save("decimal-comma-in-quotes.csv", 'power,lactate\n100,"1,05"\n150,"1,4"\n200,"3,1"\n')
save("headings-after-many-notes.csv", "".join(f"note {i}\n" for i in range(1, 41)) + TABLE)
save("headings-like-properties.csv", "power;lactate;__proto__;constructor\n100;1;x;y\n150;1,4;x;y\n200;3,1;x;y\n")
