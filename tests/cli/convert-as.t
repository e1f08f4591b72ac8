# From the plant to the measuring cup: trim loss, then density.
"$pottle" convert '1 kg rhubarb as picked' --to cup --as diced
