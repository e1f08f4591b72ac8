# A name is never a path.
for name in ../jars ./salsa/chile-salsa salsa/chile-salsa chile-salsa.xml /etc/passwd . .. '' '*' 'chile-salsa
chile-salsa'; do
    wrong scale "$name" --batches 1
    wrong show "$name"
done
