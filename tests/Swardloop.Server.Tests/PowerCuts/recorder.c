// Records what a program does to the files of one folder, so that a test can work out what a disk may hold after a power cut.
//   LD_PRELOAD=recorder.so RECORDED_FOLDER=/its/real/path RECORD=/a/file/elsewhere program ...
// With RECORDED_SYNCS=ignored the disk lies: it says that everything is kept and keeps nothing; so a test shows that it would notice.
// Every call is made as it is, by a bare system call, and written down before the next one of the folder may begin: the record is in the order of
// the calls. Syncing is not passed on: the record stands for the disk.
// A line of the record: what (8 bytes, the first counts), inode, offset, length of what follows (8 bytes each), and that.
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

static pthread_mutex_t turn = PTHREAD_MUTEX_INITIALIZER;
static const char *folder;
static size_t folder_length;
static int record = -1, syncs_count = 1;

__attribute__((constructor)) static void begin(void) {
    const char *path = getenv("RECORD");
    folder = getenv("RECORDED_FOLDER");
    const char *syncs = getenv("RECORDED_SYNCS");
    syncs_count = !(syncs && strcmp(syncs, "ignored") == 0);
    if (!folder || !path) { folder = NULL; return; }
    folder_length = strlen(folder);
    int low = (int)syscall(SYS_openat, AT_FDCWD, path, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    record = fcntl(low, F_DUPFD_CLOEXEC, 500);
    if (record < 0) _exit(99);
    syscall(SYS_close, low);
}

static void put(const void *bytes, size_t count) {
    for (const char *at = bytes; count > 0;) {
        long done = syscall(SYS_write, record, at, count);
        if (done < 0 && errno == EINTR) continue;
        if (done <= 0) _exit(98); // a record with a hole would prove nothing
        at += done, count -= done;
    }
}

static void note(char what, uint64_t inode, int64_t offset, const void *bytes, uint64_t count) {
    int kept = errno;
    struct { char what[8]; uint64_t inode; int64_t offset; uint64_t count; } line = { { what }, inode, offset, count };
    put(&line, sizeof line);
    if (count) put(bytes, count);
    errno = kept;
}

static void note_text(char what, uint64_t inode, const char *text) { note(what, inode, 0, text, strlen(text)); }

static int is_inside(const char *path) { return folder && strncmp(path, folder, folder_length) == 0 && (path[folder_length] == '/' || !path[folder_length]); }

// The whole path of what a call names.
static int whole(int at, const char *path, char *into) {
    if (path[0] == '/') return snprintf(into, PATH_MAX, "%s", path) < PATH_MAX;
    char base[PATH_MAX], link[64];
    snprintf(link, sizeof link, at == AT_FDCWD ? "/proc/self/cwd" : "/proc/self/fd/%d", at);
    ssize_t length = readlink(link, base, sizeof base - 1);
    if (length < 0) return 0;
    base[length] = 0;
    while (strncmp(path, "./", 2) == 0) path += 2;
    return snprintf(into, PATH_MAX, "%s/%s", base, path) < PATH_MAX;
}

// Whether an open file lies in the folder; one that has no name any more counts too.
static int is_ours(int fd, struct stat *about, char *path) {
    if (!folder || fd < 0 || fd == record) return 0;
    int kept = errno;
    char link[64];
    ssize_t length = -1;
    if (fstat(fd, about) == 0 && (S_ISREG(about->st_mode) || S_ISDIR(about->st_mode))) {
        snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
        length = readlink(link, path, PATH_MAX - 1);
    }
    errno = kept;
    if (length < 0) return 0;
    path[length] = 0;
    return is_inside(path);
}

static int open_at(int at, const char *name, int flags, mode_t mode) {
    char path[PATH_MAX];
    if (!folder || !whole(at, name, path) || !is_inside(path)) return (int)syscall(SYS_openat, at, name, flags, mode);
    pthread_mutex_lock(&turn);
    struct stat before, after;
    int was_there = stat(path, &before) == 0;
    int fd = (int)syscall(SYS_openat, at, name, flags, mode);
    if (fd >= 0 && fstat(fd, &after) == 0 && (S_ISREG(after.st_mode) || (flags & O_TMPFILE) == O_TMPFILE)) {
        if ((flags & O_TMPFILE) == O_TMPFILE) note_text('X', 0, "a file without a name");
        else note_text(was_there ? 'O' : 'C', after.st_ino, path);
        if (was_there && (flags & O_TRUNC)) note('T', after.st_ino, 0, NULL, 0);
    }
    pthread_mutex_unlock(&turn);
    return fd;
}

#define MODE_OF(flags) mode_t mode = 0; if ((flags) & (O_CREAT | O_TMPFILE)) { va_list more; va_start(more, flags); mode = va_arg(more, mode_t); va_end(more); }
int open(const char *path, int flags, ...) { MODE_OF(flags) return open_at(AT_FDCWD, path, flags, mode); }
int open64(const char *path, int flags, ...) { MODE_OF(flags) return open_at(AT_FDCWD, path, flags, mode); }
int openat(int at, const char *path, int flags, ...) { MODE_OF(flags) return open_at(at, path, flags, mode); }
int openat64(int at, const char *path, int flags, ...) { MODE_OF(flags) return open_at(at, path, flags, mode); }
int creat(const char *path, mode_t mode) { return open_at(AT_FDCWD, path, O_CREAT | O_WRONLY | O_TRUNC, mode); }
int creat64(const char *path, mode_t mode) { return creat(path, mode); }

// Writes at an offset, or where the file stands when it is below zero.
static ssize_t write_at(int fd, const void *bytes, size_t count, off_t offset) {
    struct stat about;
    char path[PATH_MAX];
    if (!is_ours(fd, &about, path)) return offset < 0 ? syscall(SYS_write, fd, bytes, count) : syscall(SYS_pwrite64, fd, bytes, count, offset);
    pthread_mutex_lock(&turn);
    fstat(fd, &about);
    off_t place = offset >= 0 ? offset : fcntl(fd, F_GETFL) & O_APPEND ? about.st_size : lseek(fd, 0, SEEK_CUR);
    ssize_t done = offset < 0 ? syscall(SYS_write, fd, bytes, count) : syscall(SYS_pwrite64, fd, bytes, count, offset);
    if (done > 0) note('W', about.st_ino, place, bytes, done);
    pthread_mutex_unlock(&turn);
    return done;
}

static ssize_t write_parts(int fd, const struct iovec *parts, int count, off_t offset) {
    ssize_t all = 0;
    for (int i = 0; i < count; i++) {
        if (!parts[i].iov_len) continue;
        ssize_t done = write_at(fd, parts[i].iov_base, parts[i].iov_len, offset < 0 ? -1 : offset + all);
        if (done < 0) return all ? all : done;
        all += done;
        if ((size_t)done < parts[i].iov_len) break;
    }
    return all;
}

ssize_t write(int fd, const void *bytes, size_t count) { return write_at(fd, bytes, count, -1); }
ssize_t pwrite(int fd, const void *bytes, size_t count, off_t offset) { return write_at(fd, bytes, count, offset); }
ssize_t pwrite64(int fd, const void *bytes, size_t count, off64_t offset) { return write_at(fd, bytes, count, offset); }
ssize_t pwritev(int fd, const struct iovec *parts, int count, off_t offset) { return write_parts(fd, parts, count, offset); }
ssize_t pwritev64(int fd, const struct iovec *parts, int count, off64_t offset) { return write_parts(fd, parts, count, offset); }
ssize_t writev(int fd, const struct iovec *parts, int count) {
    struct stat about;
    char path[PATH_MAX];
    return is_ours(fd, &about, path) ? write_parts(fd, parts, count, -1) : syscall(SYS_writev, fd, parts, count);
}

int ftruncate(int fd, off_t size) {
    struct stat about;
    char path[PATH_MAX];
    if (!is_ours(fd, &about, path)) return (int)syscall(SYS_ftruncate, fd, size);
    pthread_mutex_lock(&turn);
    int done = (int)syscall(SYS_ftruncate, fd, size);
    if (done == 0) note('T', about.st_ino, size, NULL, 0);
    pthread_mutex_unlock(&turn);
    return done;
}
int ftruncate64(int fd, off64_t size) { return ftruncate(fd, size); }

static int sync_one(int fd, long call) {
    struct stat about;
    char path[PATH_MAX];
    if (!is_ours(fd, &about, path)) return (int)syscall(call, fd);
    pthread_mutex_lock(&turn);
    if (syncs_count) {
        if (S_ISDIR(about.st_mode)) note_text('F', about.st_ino, path);
        else note('S', about.st_ino, 0, NULL, 0);
    }
    pthread_mutex_unlock(&turn);
    return 0;
}
int fsync(int fd) { return sync_one(fd, SYS_fsync); }
int fdatasync(int fd) { return sync_one(fd, SYS_fdatasync); }

static int two_names(char what, int from_at, const char *from, int to_at, const char *to, int flags) {
    char paths[2 * PATH_MAX], second[PATH_MAX];
    int known = folder && whole(from_at, from, paths) && whole(to_at, to, second);
    int inside = known ? is_inside(paths) + is_inside(second) : 0;
    if (inside) pthread_mutex_lock(&turn);
    int done = (int)(what == 'R' ? syscall(SYS_renameat2, from_at, from, to_at, to, flags) : syscall(SYS_linkat, from_at, from, to_at, to, flags));
    if (inside && done == 0) {
        size_t length = strlen(paths);
        strcpy(paths + length + 1, second);
        if (inside == 2 && (what == 'L' || (flags & ~1) == 0)) note(what, 0, 0, paths, length + 1 + strlen(second));
        else note_text('X', 0, "a name that goes out of the folder, or into it");
    }
    if (inside) pthread_mutex_unlock(&turn);
    return done;
}
int rename(const char *from, const char *to) { return two_names('R', AT_FDCWD, from, AT_FDCWD, to, 0); }
int renameat(int from_at, const char *from, int to_at, const char *to) { return two_names('R', from_at, from, to_at, to, 0); }
int renameat2(int from_at, const char *from, int to_at, const char *to, unsigned flags) { return two_names('R', from_at, from, to_at, to, (int)flags); }
int link(const char *from, const char *to) { return two_names('L', AT_FDCWD, from, AT_FDCWD, to, 0); }
int linkat(int from_at, const char *from, int to_at, const char *to, int flags) { return two_names('L', from_at, from, to_at, to, flags); }

static int one_name(char what, int at, const char *name, long call, int argument) {
    char path[PATH_MAX];
    int inside = folder && whole(at, name, path) && is_inside(path);
    if (inside) pthread_mutex_lock(&turn);
    int done = (int)syscall(call, at, name, argument);
    if (inside && done == 0) note_text(what, 0, path);
    if (inside) pthread_mutex_unlock(&turn);
    return done;
}
int unlinkat(int at, const char *path, int flags) { return one_name(flags & AT_REMOVEDIR ? 'Z' : 'U', at, path, SYS_unlinkat, flags); }
int unlink(const char *path) { return unlinkat(AT_FDCWD, path, 0); }
int rmdir(const char *path) { return unlinkat(AT_FDCWD, path, AT_REMOVEDIR); }
int mkdirat(int at, const char *path, mode_t mode) { return one_name('D', at, path, SYS_mkdirat, (int)mode); }
int mkdir(const char *path, mode_t mode) { return mkdirat(AT_FDCWD, path, mode); }

// What the record cannot hold is written down as such: the test refuses to judge.
static void beyond(int fd, const char *what) {
    struct stat about;
    char path[PATH_MAX], text[PATH_MAX + 64];
    if (!is_ours(fd, &about, path)) return;
    snprintf(text, sizeof text, "%s: %s", what, path);
    pthread_mutex_lock(&turn);
    note_text('X', about.st_ino, text);
    pthread_mutex_unlock(&turn);
}
void *mmap(void *at, size_t length, int protection, int flags, int fd, off_t offset) {
    if (fd >= 0 && (flags & MAP_SHARED) && (protection & PROT_WRITE)) beyond(fd, "written through memory");
    return (void *)syscall(SYS_mmap, at, length, protection, flags, fd, offset);
}
void *mmap64(void *at, size_t length, int protection, int flags, int fd, off64_t offset) { return mmap(at, length, protection, flags, fd, offset); }
int fallocate(int fd, int mode, off_t offset, off_t length) { beyond(fd, "fallocate"); return (int)syscall(SYS_fallocate, fd, mode, offset, length); }
int fallocate64(int fd, int mode, off64_t offset, off64_t length) { return fallocate(fd, mode, offset, length); }
int posix_fallocate(int fd, off_t offset, off_t length) { return fallocate(fd, 0, offset, length) == 0 ? 0 : errno; }
int posix_fallocate64(int fd, off64_t offset, off64_t length) { return posix_fallocate(fd, offset, length); }
ssize_t copy_file_range(int from, off64_t *from_offset, int to, off64_t *to_offset, size_t length, unsigned flags) {
    beyond(to, "copy_file_range");
    return syscall(SYS_copy_file_range, from, from_offset, to, to_offset, length, flags);
}
ssize_t sendfile(int to, int from, off_t *offset, size_t count) { beyond(to, "sendfile"); return syscall(SYS_sendfile, to, from, offset, count); }
ssize_t sendfile64(int to, int from, off64_t *offset, size_t count) { return sendfile(to, from, offset, count); }

// A runtime that asks the C library for a function by name is given ours: by its handle it would go past them.
void *dlsym(void *handle, const char *name) {
    static void *(*real)(void *, const char *);
    static const char *const versions[] = { "GLIBC_2.34", "GLIBC_2.17", "GLIBC_2.2.5", "GLIBC_2.27" };
    for (size_t i = 0; !real && i < sizeof versions / sizeof *versions; i++) real = (void *(*)(void *, const char *))dlvsym(RTLD_NEXT, "dlsym", versions[i]);
    if (!real) _exit(97);
    if (folder && strcmp(name, "fsync") == 0) return (void *)fsync;
    if (folder && strcmp(name, "fdatasync") == 0) return (void *)fdatasync;
    if (folder && strcmp(name, "open") == 0) return (void *)open;
    return real(handle, name);
}
